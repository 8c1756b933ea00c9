import { describe, expect, test } from 'vitest';
import { takeCensus } from '../../../src/census/take.ts';
import { blendMood } from '../../../src/intent/blendMood.ts';
import type { MoodIntent, MoodTargets } from '../../../src/intent/intent.ts';
import { hueSpread } from '../../../src/readings/hueSpread/hueSpread.ts';
import { measureMood, moodExample } from '../../../src/readings/mood/measure.ts';
import { mood } from '../../../src/readings/mood/mood.ts';
import { value } from '../../../src/readings/value/value.ts';
import type { Raster } from '../../../src/views/raster.ts';
import { COPIES, dusk, fog, inputOf, market, meadow, PICTURES, paint } from '../pictures.ts';

// Half of it still shows the softness of edges.
const SIZE = [600, 400] as const;
const painted = Object.fromEntries(Object.entries(PICTURES).map(([name, p]) => [name, paint(...SIZE, p)]));

function read(raster: Raster, intended?: MoodIntent) {
  const input = inputOf(raster, intended ? { mood: intended } : {});
  const reading = mood.read(input);
  return { input, reading, value: reading.value, findings: mood.findings(reading, input) };
}
const of = (words: readonly string[]): MoodIntent => ({ words, axes: blendMood({ words }) });

test('the axes are means over the colours, not the axes of the mean colour', () => {
  // Half strong red, half strong cyan: the mean colour is a grey of −0.5.
  const raster = paint(100, 100, (x) => (x < 0.5 ? [0.6, 0.2, 30] : [0.6, 0.12, 210]));
  const whole = read(raster).value;
  const half = (hue: number, c: number) => read(paint(100, 100, () => [0.6, c, hue])).value.warmCool!;
  expect(whole.warmCool).toBeCloseTo((half(30, 0.2) + half(210, 0.12)) / 2, 2);
  expect(whole.warmCoolSpread).toBeCloseTo(Math.abs(half(30, 0.2) - half(210, 0.12)) / 2, 2);
});

test('key, contrast and hue spread are those of the other readings', () => {
  const input = inputOf(painted.dusk);
  const measured = measureMood(input);
  const values = value.read(input).value;
  expect(measured.key).toBe(values.key);
  expect(measured.contrast).toBe(values.range);
  expect(measured.hueSpread).toBe(hueSpread.read(input).value.effectiveHues);
});

describe('pictures stand where the eye puts them', () => {
  const m = (p: typeof dusk) => measureMood(inputOf(paint(...SIZE, p)));
  test('the fog is lighter, closer in value and less active than the market', () => {
    expect(m(fog).heavyLight).toBeLessThan(m(market).heavyLight!);
    expect(m(fog).contrast).toBeLessThan(m(market).contrast!);
    expect(m(fog).activePassive).toBeLessThan(m(market).activePassive!);
    expect(m(fog).hueSpread).toBeLessThan(m(market).hueSpread!);
  });
  test('dusk is darker than the meadow', () => {
    expect(m(dusk).key).toBeLessThan(m(meadow).key!);
  });
});

describe('findings', () => {
  test('none without a mood', () => {
    for (const raster of Object.values(painted)) {
      const { findings, reading, input } = read(raster);
      expect(findings).toEqual([]);
      expect(reading.value.distance).toBeNull();
      expect(mood.fine(reading, input)).toMatch(/no mood is decided/);
    }
  });

  test('one, for the axis that is farthest off, with what moves it', () => {
    const { findings, value: v } = read(painted.market, of(['hushed']));
    expect(findings).toHaveLength(1);
    const [finding] = findings;
    const axis = finding.key.replace('mood.', '') as keyof MoodTargets;
    const others = Object.entries(v.distance!.axes).filter(([a]) => a !== axis && a !== 'activePassive');
    for (const [, steps] of others)
      expect(Math.abs(v.distance!.axes[axis]!)).toBeGreaterThanOrEqual(Math.abs(steps));
    expect(finding.text).toMatch(/ than “hushed”\.$/);
    expect(finding.number).toMatch(/, intended .+ ± /);
    expect(finding.todo.length).toBeGreaterThan(20);
    expect(finding.origin.kind).toBe('intent');
  });

  test('the further off, the more severe', () => {
    const severities = [0, 15, 30, 45].map((off) => {
      const key = read(painted.meadow).value.key!;
      const { findings } = read(painted.meadow, { axes: { key: { at: key - off, tolerance: 5 } } });
      return findings[0]?.severity ?? 0;
    });
    expect(severities[0]).toBe(0);
    for (let i = 1; i < severities.length; i++) expect(severities[i]).toBeGreaterThan(severities[i - 1]);
  });

  test.each([
    ['warmCool', -1, 'Warmer', /yellow-green|ochre|olive|green/],
    ['warmCool', 1, 'Cooler', /blue|yellow-green|green/],
    ['key', -20, 'Lighter', /Darken/],
    ['contrast', 30, 'Softer in contrast', /apart/],
    ['softness', 12, 'Harder in its edges', /Lose edges/],
  ] as const)('%s moved by %d: %s', (axis, by, text, todo) => {
    const at = read(painted.meadow).value[axis]! + by;
    const [finding] = read(painted.meadow, { axes: { [axis]: { at, tolerance: 0.1 } } }).findings;
    expect(finding.key).toBe(`mood.${axis}`);
    expect(finding.text).toBe(`${text} than you decided.`);
    expect(finding.todo).toMatch(todo);
  });

  test('liveliness alone makes none, and is still told', () => {
    const intended: MoodIntent = { axes: { activePassive: { at: 2, tolerance: 0.1 } } };
    const { findings, reading, input } = read(painted.fog, intended);
    expect(findings).toEqual([]);
    expect(mood.fine(reading, input)).toMatch(/, only more passive\.$/);
  });

  test('an axis without weight does not count', () => {
    const axes = { key: { at: 5, tolerance: 1 }, contrast: { at: 90, tolerance: 1 } };
    const heavier = read(painted.fog, { axes, weights: { key: 0 } });
    expect(heavier.findings[0].key).toBe('mood.contrast');
    expect(heavier.value.distance!.axes.key).toBeUndefined();
  });
});

describe('an example picture', () => {
  test('is its own mood', () => {
    const example = moodExample('the dusk', inputOf(painted.dusk));
    const intended: MoodIntent = { examples: [example], axes: blendMood({ examples: [example] }) };
    const { value: v, findings, reading, input } = read(painted.dusk, intended);
    expect(v.distance!.total).toBe(0);
    expect(findings).toEqual([]);
    expect(mood.fine(reading, input)).toMatch(/as “the dusk” should be\.$/);
    expect(read(painted.market, intended).findings).toHaveLength(1);
  });

  test('keeps mean and covariance of OKLab', () => {
    const raster = paint(64, 64, (x) => (x < 0.25 ? [0.4, 0.06, 90] : [0.7, 0.06, 270]));
    const { mean, covariance } = moodExample('two tones', inputOf(raster));
    // Two colours in shares 1/4 and 3/4: mean ¼p + ¾q, covariance 3/16 (p − q)(p − q)ᵀ.
    expect(mean[0]).toBeCloseTo(0.625, 2);
    expect(mean[2]).toBeCloseTo(-0.03, 2);
    expect(covariance[0]).toBeCloseTo((3 / 16) * 0.09, 3);
    expect(covariance[2]).toBeCloseTo((3 / 16) * -0.3 * 0.12, 3);
    expect(covariance[5]).toBeCloseTo((3 / 16) * 0.0144, 3);
    expect(covariance[3]).toBeCloseTo(0, 4);
  });
});

describe('evidence', () => {
  test('of a thumbnail is weak', () => {
    expect(read(paint(40, 40, dusk)).reading.evidence.level).toBe('weak');
  });
  test('of a transparent picture is weak, with nothing for a number', () => {
    const raster: Raster = { ...painted.dusk, channels: 4, data: new Uint8Array(4 * SIZE[0] * SIZE[1]) };
    const { reading, input } = read(raster, of(['still']));
    expect(takeCensus(raster).count).toBe(0);
    expect(reading.evidence.level).toBe('weak');
    expect(Object.values(reading.value).every((v) => v === null)).toBe(true);
    expect(mood.draw(reading, input).shapes).toEqual([]);
  });
});

test('the drawing has a line for each decided axis, a band and a mark', () => {
  const intended = of(['cosy']);
  const { reading, input } = read(painted.dusk, intended);
  const drawing = mood.draw(reading, input);
  const count = Object.keys(intended.axes).length;
  expect(drawing.shapes.filter((s) => s.kind === 'line')).toHaveLength(count);
  expect(drawing.shapes.filter((s) => s.kind === 'rect')).toHaveLength(count);
  expect(drawing.shapes.filter((s) => s.kind === 'circle')).toHaveLength(count);
  for (const s of drawing.shapes) {
    if (s.kind === 'circle') expect(s.cx).toBeGreaterThan(0);
    if (s.kind === 'circle') expect(s.cx).toBeLessThan(drawing.width);
  }
  expect(drawing.sentence).toMatch(/^(Against the intended range|The picture lies within)/);
});

describe('copies that look the same read the same', () => {
  // In the unit of each axis; 2 % of noise in single pixels counts as colour, so that it moves warm–cool's spread.
  const TOLERANCE = {
    warmCool: 0.03,
    heavyLight: 0.05,
    activePassive: 0.06,
    pleasure: 0.05,
    arousal: 0.05,
    dominance: 0.05,
    key: 0.5,
    contrast: 1,
    softness: 0.5,
  } as const;
  for (const [name, raster] of Object.entries(painted)) {
    const a = read(raster).value;
    test.each(Object.keys(COPIES))(`${name}, %s`, async (copy) => {
      const b = read(await COPIES[copy](raster)).value;
      for (const [axis, tolerance] of Object.entries(TOLERANCE)) {
        const key = axis as keyof typeof TOLERANCE;
        expect(Math.abs(a[key]! - b[key]!), axis).toBeLessThan(tolerance);
      }
    });
  }
});

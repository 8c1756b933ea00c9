import { describe, expect, test } from 'vitest';
import type { Triple } from '../../../src/colour/matrix.ts';
import type { Baseline } from '../../../src/intent/baseline.ts';
import type { HueIntent } from '../../../src/intent/intent.ts';
import { hueSpread } from '../../../src/readings/hueSpread/hueSpread.ts';
import type { Raster } from '../../../src/views/raster.ts';
import { COPIES, dusk, grain, inputOf, market, meadow, PICTURES, paint } from '../pictures.ts';

/** Upright stripes of equal width, one for each hue, with a little variation as paint has. */
const stripes = (hues: readonly number[], chroma = 0.1, size = 240): Raster =>
  paint(size, size, (x, y) => {
    const hue = hues[Math.min(hues.length - 1, Math.floor(x * hues.length))];
    const n = grain(Math.floor(x * size), Math.floor(y * size), 3) - 0.5;
    return [0.62 + 0.1 * n, chroma, hue + 10 * n] as Triple;
  });

const read = (raster: Raster, hue?: HueIntent) => {
  const input = inputOf(raster, hue ? { hue } : {});
  const reading = hueSpread.read(input);
  return { input, reading, value: reading.value, findings: hueSpread.findings(reading, input) };
};

describe('planted hues', () => {
  test.each([
    { hues: [250], families: ['blue'] },
    { hues: [250, 65], families: ['blue', 'orange'] },
    { hues: [20, 140, 260], families: ['blue', 'green', 'red'] },
    { hues: [10, 82, 154, 226, 298], families: ['green', 'ochre', 'pink', 'sky blue', 'violet'] },
  ])('$hues are found as families', ({ hues, families }) => {
    const { value } = read(stripes(hues));
    expect(value.families.map((f) => f.name).sort()).toEqual([...families].sort());
    for (const family of value.families) {
      expect(family.areaShare).toBeCloseTo(1 / hues.length, 1);
      expect(family.weightShare).toBeCloseTo(1 / hues.length, 1);
      expect(family.chroma).toBeCloseTo(0.1, 2);
      expect(Math.min(...hues.map((h) => Math.abs(h - family.hue)))).toBeLessThan(3);
    }
  });

  test('each hue more raises the spread', () => {
    const all = [250, 65, 150, 330, 20, 290, 110, 200];
    const spreads = all.map((_, n) => read(stripes(all.slice(0, n + 1))).value.effectiveHues!);
    for (let n = 1; n < spreads.length; n++) expect(spreads[n]).toBeGreaterThan(spreads[n - 1] + 0.2);
    expect(spreads[0]).toBeLessThan(1.2);
  });

  test('more of a stray hue raises the stray share', () => {
    const shares = [0, 0.03, 0.08, 0.2, 0.4].map((part) => {
      const raster = paint(200, 200, (x) => [0.6, 0.1, x < part ? 140 : 255]);
      const { value, findings } = read(raster, { families: [{ hue: 255, width: 40 }] });
      return { stray: value.strayShare!, severity: findings[0]?.severity ?? 0 };
    });
    for (let i = 1; i < shares.length; i++) {
      expect(shares[i].stray).toBeGreaterThan(shares[i - 1].stray);
      expect(shares[i].severity).toBeGreaterThanOrEqual(shares[i - 1].severity);
    }
    expect(shares[0]).toEqual({ stray: 0, severity: 0 });
    expect(shares[3].stray).toBeCloseTo(0.2, 1);
    expect(shares[3].severity).toBeGreaterThan(0.3);
  });

  test('a small saturated lamp on a dull ground is an accent', () => {
    const raster = paint(240, 160, (x, y) =>
      (x - 0.5) ** 2 + (y - 0.5) ** 2 < 0.06 ** 2 ? [0.8, 0.16, 70] : [0.4, 0.05, 260],
    );
    const { value } = read(raster);
    expect(value.families.map((f) => [f.name, f.accent])).toEqual([
      ['blue', false],
      ['orange', true],
    ]);
    expect(value.accents).toBe(1);
  });
});

describe('the eye sees no hue in', () => {
  test.each<[what: string, colour: Triple]>([
    ['a grey', [0.5, 0.005, 40]],
    ['black, whatever its code values say', [0.1, 0.05, 300]],
    ['white', [1, 0, 0]],
  ])('%s', (_, colour) => {
    const { value, reading } = read(paint(120, 120, () => colour));
    expect(value.effectiveHues).toBeNull();
    expect(value.spanDegrees).toBeNull();
    expect(value.strayShare).toBeNull();
    expect(value.families).toEqual([]);
    expect(value.template).toBeNull();
    expect(reading.evidence.level).toBe('weak');
  });
});

describe('evidence', () => {
  test.each([
    { what: 'a thumbnail', size: 40, level: 'weak' },
    { what: 'a small picture', size: 120, level: 'fair' },
    { what: 'a picture', size: 240, level: 'strong' },
  ])('of $what is $level', ({ size, level }) => {
    expect(read(stripes([250, 65], 0.1, size)).reading.evidence.level).toBe(level);
  });

  test('of a picture that is transparent throughout is weak', () => {
    const data = new Uint8Array(4 * 64 * 64);
    const raster: Raster = { ...stripes([20]), width: 64, height: 64, channels: 4, data };
    const { reading } = read(raster);
    expect(reading.evidence).toEqual({ level: 'weak', reason: 'The picture is transparent throughout.' });
    expect(JSON.stringify(reading.value)).not.toContain('NaN');
  });
});

describe('findings', () => {
  const blue = { hue: 255, width: 60 };
  const orange = { hue: 60, width: 50 };

  test('five hues where two were planned', () => {
    const { findings } = read(stripes([255, 60, 140, 330, 200]), { families: [blue, orange] });
    expect(findings.map((f) => f.key)).toEqual(['hueSpread.strays']);
    const [finding] = findings;
    expect(finding.text).toBe('Five hues where two were planned.');
    expect(finding.number).toMatch(/^\d\d % of the colour lies outside blue and orange/);
    expect(finding.todo).toMatch(/^Calm the .+ or turn it towards (blue|orange)/);
    expect(finding.severity).toBeGreaterThan(0.8);
    expect(finding.origin.kind).toBe('intent');
    expect(finding.map).toBe('strays');
    expect(finding.places!.length).toBeGreaterThan(0);
    for (const place of finding.places!) {
      expect(place.share).toBeGreaterThan(0.05);
      expect(place.swatches!.map((s) => s.label)).toEqual(['now', 'in your plan']);
    }
  });

  test('the planned two give none, and say so', () => {
    const { findings, reading, input } = read(stripes([255, 60]), { families: [blue, orange] });
    expect(findings).toEqual([]);
    expect(hueSpread.fine(reading, input)).toMatch(/: 100 % of the colour keeps to the plan\.$/);
  });

  test('without a plan many hues are too many, two opposite ones are not', () => {
    const many = read(stripes([255, 60, 140, 330, 200]));
    expect(many.findings.map((f) => f.key)).toEqual(['hueSpread.many']);
    expect(many.findings[0].text).toMatch(/^Five hues compete: /);
    expect(many.findings[0].origin.kind).toBe('default');
    expect(read(stripes([255, 60])).findings).toEqual([]);
  });

  test('a limit counts before our default', () => {
    const [finding] = read(stripes([255, 60]), { families: [], limit: 1.5 }).findings;
    expect(finding.key).toBe('hueSpread.many');
    expect(finding.origin.kind).toBe('intent');
    expect(finding.number).toContain('your limit is 1.5');
  });

  test('a mood that wants many hues is not contradicted', () => {
    const input = inputOf(stripes([255, 60, 140, 330, 200]), {
      mood: { axes: { hueSpread: { at: 5, tolerance: 2 } } },
    });
    expect(hueSpread.findings(hueSpread.read(input), input)).toEqual([]);
  });

  test('an accent may be small only', () => {
    const plan: HueIntent = { families: [blue], accent: orange };
    const lamp = (r: number) =>
      paint(240, 160, (x, y) =>
        Math.hypot(x - 0.5, y - 0.5) < r ? [0.75, 0.14, 60] : ([0.4, 0.08, 255] as Triple),
      );
    expect(read(lamp(0.07), plan).findings).toEqual([]);
    const large = read(lamp(0.25), plan);
    expect(large.findings.map((f) => f.key)).toEqual(['hueSpread.accent']);
    expect(large.value.strayShare).toBe(0);
  });

  describe('beside the artist’s own works', () => {
    const usual = (p10: number, p90: number): Baseline => ({
      schema: 'halflight/baseline@1',
      works: 20,
      measures: { 'hueSpread.effectiveHues': { p10, p50: (p10 + p90) / 2, p90 } },
    });
    const beside = (raster: Raster, baseline: Baseline) => {
      const input = { ...inputOf(raster), baseline };
      return hueSpread.findings(hueSpread.read(input), input);
    };
    test('what is usual there is no finding', () => {
      expect(beside(stripes([255, 60, 140, 330, 200]), usual(3, 6))).toEqual([]);
    });
    test('what is not is a mild one', () => {
      const [finding, ...rest] = beside(stripes([255, 60, 140]), usual(1.1, 1.6));
      expect(rest).toEqual([]);
      expect(finding.key).toBe('hueSpread.unusual');
      expect(finding.severity).toBeLessThan(0.41);
      expect(finding.origin.kind).toBe('baseline');
      expect(finding.number).toContain('usually 1.1 to 1.6');
    });
    test('three works are too few to say', () => {
      expect(beside(stripes([255, 60, 140]), { ...usual(1.1, 1.6), works: 3 })).toEqual([]);
    });
  });
});

describe('maps', () => {
  test('strays are white where they were painted and black elsewhere', () => {
    const raster = paint(200, 100, (x) => [0.6, 0.1, x < 0.25 ? 140 : 255]);
    const { reading } = read(raster, { families: [{ hue: 255, width: 40 }] });
    const map = reading.maps.strays();
    expect([map.width, map.height]).toEqual([200, 100]);
    expect(map.data[50 * 200 + 20]).toBeCloseTo(1, 3);
    expect(map.data[50 * 200 + 120]).toBe(0);
  });

  test('each family has its own', () => {
    const { reading, value } = read(stripes([255, 60]));
    const maps = value.families.map((_, i) => reading.maps[`family${i + 1}`]());
    const covered = maps[0].data.map((v, p) => v + maps[1].data[p]);
    expect(Math.min(...covered)).toBeGreaterThan(0.99);
    expect(Math.max(...covered)).toBeLessThan(1.01);
  });

  test('what the artist left out is neither counted nor shown', () => {
    const raster = paint(200, 100, (x) => [0.6, 0.1, x < 0.25 ? 140 : 255]);
    const input = inputOf(raster, { hue: { families: [{ hue: 255, width: 40 }] } });
    const { width, height } = input.views.close;
    const leftOut = {
      width,
      height,
      data: Float32Array.from({ length: width * height }, (_, p) => (p % width < 0.25 * width ? 1 : 0)),
    };
    const reading = hueSpread.read({ ...input, leftOut });
    expect(reading.value.strayShare).toBe(0);
    expect(Math.max(...reading.maps.strays().data)).toBe(0);
  });
});

describe('copies that look the same read the same', () => {
  const rasters = Object.fromEntries(
    Object.entries(PICTURES).map(([name, painter]) => [name, paint(420, 300, painter)]),
  );
  for (const [name, raster] of Object.entries(rasters)) {
    const a = read(raster).value;
    test.each(Object.keys(COPIES))(`${name}, %s`, async (copy) => {
      const b = read(await COPIES[copy](raster)).value;
      // Tolerances: a tenth of a hue, 8° of span, 3 % of the colour, 3 of colourfulness. Noise that stands in single
      // pixels turns the hue of weak colours by up to 15°: 0.3 hues, 20° and 4 of colourfulness there (docs/readings.md).
      const noisy = copy.includes('noise');
      expect(Math.abs(a.effectiveHues! - b.effectiveHues!)).toBeLessThan(noisy ? 0.3 : 0.1);
      expect(Math.abs(a.spanDegrees! - b.spanDegrees!)).toBeLessThan(noisy ? 20 : 8);
      expect(Math.abs(a.families[0].weightShare - b.families[0].weightShare)).toBeLessThan(0.03);
      expect(Math.abs(a.families[0].hue - b.families[0].hue)).toBeLessThan(4);
      expect(Math.abs(a.colourfulness - b.colourfulness)).toBeLessThan(noisy ? 4 : 3);
    });
  }
});

test('calm and motley pictures stand in the order of the eye', () => {
  const spread = (p: typeof dusk) => read(paint(300, 200, p)).value.effectiveHues!;
  expect(spread(dusk)).toBeGreaterThan(spread(PICTURES.fog));
  expect(spread(market)).toBeGreaterThan(spread(dusk) + 1);
  expect(spread(market)).toBeGreaterThan(spread(meadow) + 1);
});

test('the drawing shows the plan inside the ring and says what is on it', () => {
  const { reading, input } = read(stripes([255, 60]), { families: [{ hue: 255, width: 40 }] });
  const drawing = hueSpread.draw(reading, input);
  const arcs = drawing.shapes.filter((s) => s.kind === 'path' && s.stroke === 'ink');
  expect(arcs).toHaveLength(1);
  expect(drawing.sentence).toMatch(/^The weight of each hue around a ring: .*blue \d+ %/);
  for (const shape of drawing.shapes) if (shape.kind === 'path') expect(shape.d).not.toMatch(/NaN|undefined/);
  // Drawn with the picture's own colours: a tooth has its hue, and none is grey.
  const teeth = drawing.shapes.flatMap((s) =>
    s.kind === 'path' && typeof s.fill === 'object' ? [s.fill.css] : [],
  );
  expect(teeth.length).toBeGreaterThan(3);
  for (const css of teeth)
    expect(new Set([css.slice(1, 3), css.slice(3, 5), css.slice(5, 7)]).size).toBeGreaterThan(1);
});

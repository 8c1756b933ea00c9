import { describe, expect, test } from 'vitest';
import { lightness, luminanceOf } from '../../../src/colour/cielab.ts';
import { SRGB } from '../../../src/colour/rgbSpaces.ts';
import { linearToSrgb } from '../../../src/colour/transfer.ts';
import type { Intent } from '../../../src/intent/intent.ts';
import { hasPaint, type SeenValues } from '../../../src/readings/value/types.ts';
import { value } from '../../../src/readings/value/value.ts';
import type { Raster } from '../../../src/views/raster.ts';
import { COPIES, grain, inputOf, PICTURES, paint } from '../pictures.ts';

/** A grey picture from CIELAB L*; 8-bit codes, so that L* is right to about 0.2. */
function greys(width: number, height: number, at: (x: number, y: number) => number): Raster {
  const data = new Uint8Array(3 * width * height);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i += 3) {
      const L = at((x + 0.5) / width, (y + 0.5) / height);
      data.fill(Math.round(255 * linearToSrgb(luminanceOf(L))), i, i + 3);
    }
  return { width, height, channels: 3, depth: 8, data, space: SRGB };
}

function read(raster: Raster, intent: Partial<Intent> = {}) {
  const input = inputOf(raster, intent);
  const reading = value.read(input);
  if (!hasPaint(reading.value)) throw new Error('no paint');
  const seen: SeenValues = reading.value;
  return { input, reading, seen, findings: value.findings(reading, input) };
}

test('key and range of an even ramp', () => {
  const { seen } = read(greys(320, 200, (x) => 100 * x));
  expect(seen.key).toBeCloseTo(50, 0);
  expect(seen.range).toBeCloseTo(90, 0);
  expect(seen.distribution.reduce((s, v) => s + v, 0)).toBeCloseTo(1, 9);
  for (const { share, evenRamp } of seen.explained) expect(share).toBeCloseTo(evenRamp, 2);
});

test('key is the mean over the area of the lightness that is left from a step back, not of fine stripes', () => {
  // Black and white stripes of one pixel melt into half the light: L* 76, not 50.
  const { seen } = read(greys(320, 200, (x) => (Math.floor(320 * x) % 2 ? 100 : 0)));
  expect(seen.key).toBeCloseTo(lightness(0.5), 0);
  expect(seen.groups).toHaveLength(1);
});

describe('flat pictures of so many tones', () => {
  test.each([[[50]], [[20, 50, 85]], [[15, 40, 60, 90]], [[10, 30, 50, 70, 90]]])('%j', (tones) => {
    const { seen } = read(greys(400, 240, (x) => tones[Math.floor(x * tones.length)]));
    expect(seen.groups).toHaveLength(tones.length);
    seen.groups.forEach((group, i) => {
      // The blur of the whole view mixes a rim of 1/80 on either side of a border.
      expect(Math.abs(group.L - tones[i])).toBeLessThan(2);
      expect(group.share).toBeCloseTo(1 / tones.length, 1);
    });
  });
});

test('the two tones of a plain division are the outer groups', () => {
  const { seen } = read(greys(400, 240, (x) => (x < 0.3 ? 20 : 80)));
  expect(seen.groups[0].L).toBeLessThan(24);
  expect(seen.groups[seen.groups.length - 1].L).toBeGreaterThan(76);
});

describe('thumbnail', () => {
  test('a picture of three tones survives, one of fine gradation less', () => {
    const three = read(greys(400, 240, (x) => [25, 50, 80][Math.floor(3 * x)])).seen.thumbnail!;
    const rolling = read(
      greys(400, 240, (x, y) => 50 + 30 * Math.sin(19 * x) * Math.sin(11 * y) + 10 * Math.sin(45 * x)),
    ).seen.thumbnail!;
    expect(three).toBeGreaterThan(0.9);
    expect(rolling).toBeLessThan(three - 0.1);
  });
});

describe('shapes', () => {
  const patches = (cells: number) =>
    greys(480, 320, (x, y) => 15 + 70 * grain(Math.floor(cells * x), Math.floor((cells * y) / 1.5), 5));

  test('more patches read as more shapes, and from some on as scattered', () => {
    const found = [2, 4, 8, 12].map((cells) => read(patches(cells)));
    for (let i = 1; i < found.length; i++)
      expect(found[i].seen.shapes).toBeGreaterThan(found[i - 1].seen.shapes);
    expect(found[0].findings).toEqual([]);
    const last = found[3].findings.map((f) => f.key);
    expect(last).toEqual(['value.scattered']);
    expect(found[3].findings[0].severity).toBeGreaterThanOrEqual(found[2].findings[0]?.severity ?? 0);
  });

  test('patches that differ by next to nothing scatter nothing', () => {
    const faint = greys(480, 320, (x, y) => 50 + 14 * grain(Math.floor(12 * x), Math.floor(8 * y), 5));
    expect(read(faint).findings.map((f) => f.key)).not.toContain('value.scattered');
  });
});

describe('close values', () => {
  const veil = (range: number) => greys(240, 160, (x) => 60 + range * (x - 0.5));
  test('are a finding that grows as they close', () => {
    const severities = [40, 12, 8, 4].map((range) => read(veil(range)).findings[0]?.severity ?? 0);
    expect(severities[0]).toBe(0);
    for (let i = 2; i < severities.length; i++) expect(severities[i]).toBeGreaterThan(severities[i - 1]);
  });
  test('are left to the mood when it speaks of contrast', () => {
    expect(read(veil(6), { mood: { axes: { contrast: { at: 8, tolerance: 4 } } } }).findings).toEqual([]);
  });
});

describe('focus', () => {
  const outline = [0.4, 0.4, 0.6, 0.4, 0.6, 0.6, 0.4, 0.6];
  const inFocus = (x: number, y: number) => Math.abs(x - 0.5) < 0.1 && Math.abs(y - 0.5) < 0.1;
  const scene = (step: number) =>
    greys(480, 320, (x, y) => (inFocus(x, y) ? 50 + step : 50 + 12 * Math.sin(40 * x)));

  test('the step to its surroundings is measured', () => {
    for (const step of [25, -30]) {
      const raster = greys(480, 320, (x, y) => (inFocus(x, y) ? 50 + step : 50));
      const focus = read(raster, { focus: { outlines: [outline] } }).seen.focus!;
      expect(Math.abs(focus.inside - 50 - step)).toBeLessThan(1);
      expect(Math.abs(focus.around - 50)).toBeLessThan(1);
      expect(focus.difference).toBeCloseTo(Math.abs(focus.inside - focus.around), 9);
      expect(focus.edges).toBeGreaterThan(5);
    }
  });

  test('a focus as quiet as its surroundings is a finding, a clear one is none', () => {
    const quiet = read(
      greys(480, 320, (x, y) => (Math.hypot(x - 0.5, y - 0.5) < 0.3 ? 50 : 50 + 30 * Math.sin(40 * x))),
      { focus: { outlines: [outline] } },
    );
    expect(quiet.findings.map((f) => f.key)).toContain('value.focus');
    const clear = read(scene(25), { focus: { outlines: [outline] } });
    expect(clear.findings.map((f) => f.key)).not.toContain('value.focus');
  });

  test.each([
    ['none is drawn', undefined],
    ['it is a speck', { outlines: [[0.5, 0.5, 0.501, 0.5, 0.5, 0.501]] }],
    ['it is everything', { outlines: [[0, 0, 1, 0, 1, 1, 0, 1]] }],
  ])('says nothing when %s', (_, focus) => {
    expect(read(scene(0), focus ? { focus } : {}).seen.focus).toBeNull();
  });
});

describe('evidence', () => {
  test.each([
    { size: 1, level: 'weak' },
    { size: 40, level: 'weak' },
    { size: 120, level: 'fair' },
    { size: 240, level: 'strong' },
  ])('$size px across is $level', ({ size, level }) => {
    expect(read(greys(size, size, (x) => 100 * x)).reading.evidence.level).toBe(level);
  });

  test('of a transparent picture is weak, with nothing for a number', () => {
    const raster: Raster = { ...greys(64, 64, () => 50), channels: 4, data: new Uint8Array(4 * 64 * 64) };
    const input = inputOf(raster);
    const reading = value.read(input);
    expect(reading.evidence.level).toBe('weak');
    expect(reading.value.key).toBeNull();
    expect(value.draw(reading, input).sentence).toBe('Nothing is painted.');
    expect(value.findings(reading, input)).toEqual([]);
  });
});

test('transparent places do not count', () => {
  const opaque = greys(200, 100, (x) => (x < 0.5 ? 70 : 20));
  const data = new Uint8Array(4 * 200 * 100);
  for (let p = 0; p < 200 * 100; p++) {
    data.set(opaque.data.subarray(3 * p, 3 * p + 3), 4 * p);
    data[4 * p + 3] = p % 200 < 100 ? 255 : 0;
  }
  expect(read({ ...opaque, channels: 4, data }).seen.key).toBeCloseTo(70, 0);
});

test('the map is black for the darkest group and white for the lightest', () => {
  const { reading } = read(greys(400, 240, (x) => [20, 50, 85][Math.floor(3 * x)]));
  const map = reading.maps.groups();
  expect([map.width, map.height]).toEqual([400, 240]);
  const row = 120 * 400;
  expect([map.data[row + 40], map.data[row + 200], map.data[row + 360]]).toEqual([0, 0.5, 1]);
});

test('the drawing stands the groups on each other, dark at the foot', () => {
  const { reading, input } = read(greys(400, 240, (x) => [20, 50, 85][Math.floor(3 * x)]));
  const drawing = value.draw(reading, input);
  const bars = drawing.shapes.filter((s) => s.kind === 'rect').filter((s) => s.fill !== 'none');
  expect(bars).toHaveLength(3);
  expect(bars[0].y).toBeGreaterThan(bars[2].y);
  expect(bars.reduce((s, b) => s + b.height, 0)).toBeCloseTo(drawing.height, 1);
  const map = drawing.shapes.find((s) => s.kind === 'map')!;
  expect(reading.maps[map.map]).toBeDefined();
  expect(map.palette).toHaveLength(3);
});

describe('copies that look the same read the same', () => {
  for (const [name, painter] of Object.entries(PICTURES)) {
    const raster = paint(420, 300, painter);
    const a = read(raster).seen;
    test.each(Object.keys(COPIES))(`${name}, %s`, async (copy) => {
      const b = read(await COPIES[copy](raster)).seen;
      // Tolerances: 0.5 L* of key, 1 of range, 0.01 of what groups explain, 1 L* of each group with 3 % of its share,
      // 0.03 of likeness, 2 shapes.
      expect(Math.abs(a.key - b.key)).toBeLessThan(0.5);
      expect(Math.abs(a.range - b.range)).toBeLessThan(1);
      a.explained.forEach((e, i) => {
        expect(Math.abs(e.share - b.explained[i].share)).toBeLessThan(0.01);
      });
      expect(Math.abs(a.thumbnail! - b.thumbnail!)).toBeLessThan(0.03);
      // One pier in a fog: two ways to split it into three explain the same within 0.01, either may win.
      if (name === 'fog') return;
      expect(b.groups).toHaveLength(a.groups.length);
      a.groups.forEach((group, i) => {
        expect(Math.abs(group.L - b.groups[i].L)).toBeLessThan(1);
        expect(Math.abs(group.share - b.groups[i].share)).toBeLessThan(0.03);
      });
      expect(Math.abs(a.shapes - b.shapes)).toBeLessThan(2);
    });
  }
});

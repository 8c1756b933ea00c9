import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Census } from '../../src/census/census.ts';
import { takeCensus } from '../../src/census/take.ts';
import { fromSrgb } from '../../src/colour/gamut.ts';
import { transform } from '../../src/colour/matrix.ts';
import { linearToOklab } from '../../src/colour/oklab.ts';
import { DISPLAY_P3, SRGB } from '../../src/colour/rgbSpaces.ts';
import type { ColourSpace } from '../../src/colour/space.ts';
import { decode, encode } from '../../src/colour/transfer.ts';
import type { Raster } from '../../src/views/raster.ts';
import { randomNumbers } from '../colour/random.ts';

interface Made {
  readonly pixels: number;
  readonly channels: 3 | 4;
  readonly depth: 8 | 16;
  readonly space: ColourSpace;
  /** 0: random codes; 1: three neighbouring colours; 2: a dark ramp with a black and a white part. */
  readonly kind: number;
  readonly seed: number;
}

const made: fc.Arbitrary<Made> = fc.record({
  pixels: fc.integer({ min: 1, max: 400 }),
  channels: fc.constantFrom(3, 4),
  depth: fc.constantFrom(8, 16),
  space: fc.constantFrom(SRGB, DISPLAY_P3),
  kind: fc.integer({ min: 0, max: 2 }),
  seed: fc.integer(),
});

function rasterOf({ pixels, channels, depth, space, kind, seed }: Made): Raster {
  const random = randomNumbers(seed);
  const max = 2 ** depth - 1;
  const data = depth === 8 ? new Uint8Array(channels * pixels) : new Uint16Array(channels * pixels);
  for (let p = 0; p < pixels; p++) {
    for (let c = 0; c < channels; c++) {
      const v = kind === 0 ? random() : kind === 1 ? 0.4 + 0.002 * Math.floor(3 * random()) : p / pixels / 8;
      data[channels * p + c] = Math.floor(v * (max + 1));
    }
    if (kind === 2 && p % 5 === 0) data.fill(p % 2 ? 0 : max, channels * p, channels * p + 3);
    if (channels === 4)
      data[channels * p + 3] = p % 3 === 0 ? max : p % 3 === 1 ? 0 : Math.floor(random() * max);
  }
  return { width: pixels, height: 1, channels, depth, data, space };
}

/** What a census must add up to, pixel by pixel. */
function bruteForce({ data, channels, depth, space }: Raster, chosen?: Uint8Array) {
  const max = 2 ** depth - 1;
  // Standing at a limit means: to 8 bits.
  const near = depth === 16 ? 128 : 0;
  const sum = { area: 0, floor: 0, ceiling: 0, rgb: [0, 0, 0] };
  for (let p = 0; p * channels < data.length; p++) {
    const r = data[channels * p];
    const g = data[channels * p + 1];
    const b = data[channels * p + 2];
    const weight = (channels === 4 ? data[channels * p + 3] / max : 1) * (chosen ? chosen[p] : 1);
    const codes = [r / max, g / max, b / max] as const;
    const light = transform(space.toSrgb, [
      decode(space.curves[0], codes[0]),
      decode(space.curves[1], codes[1]),
      decode(space.curves[2], codes[2]),
    ]);
    sum.area += weight;
    if (Math.min(r, g, b) <= near) sum.floor += weight;
    if (Math.max(r, g, b) >= max - near) sum.ceiling += weight;
    light.forEach((v, k) => {
      sum.rgb[k] += weight * v;
    });
  }
  return sum;
}

function total(census: Census) {
  const sum = { area: census.area, share: 0, floor: 0, ceiling: 0, rgb: [0, 0, 0] };
  for (let i = 0; i < census.count; i++) {
    sum.share += census.share[i];
    sum.floor += census.atFloor[i] * census.area;
    sum.ceiling += census.atCeiling[i] * census.area;
    for (let c = 0; c < 3; c++) sum.rgb[c] += census.share[i] * census.area * census.rgb[3 * i + c];
  }
  return sum;
}

test('sums are those of every single pixel', () => {
  fc.assert(
    fc.property(made, fc.boolean(), (kind, some) => {
      const raster = rasterOf(kind);
      const chosen = some ? Uint8Array.from({ length: kind.pixels }, (_, p) => (p % 7 ? 1 : 0)) : undefined;
      const mine = total(takeCensus(raster, chosen));
      const theirs = bruteForce(raster, chosen);
      expect(mine.area).toBeCloseTo(theirs.area, 9);
      expect(mine.share).toBeCloseTo(theirs.area > 0 ? 1 : 0, 9);
      expect(mine.floor).toBeCloseTo(theirs.floor, 9);
      expect(mine.ceiling).toBeCloseTo(theirs.ceiling, 9);
      for (let c = 0; c < 3; c++) expect(mine.rgb[c]).toBeCloseTo(theirs.rgb[c], 8);
    }),
    { numRuns: 100, seed: 5 },
  );
});

test('cells hold pixels of like codes: no mean leaves its own 6-bit cell', () => {
  for (const depth of [8, 16] as const) {
    const raster = rasterOf({ pixels: 300, channels: 3, depth, space: DISPLAY_P3, kind: 0, seed: 3 });
    const census = takeCensus(raster);
    const into = fromSrgb(DISPLAY_P3);
    const cells = new Set<number>();
    for (let p = 0; p < 300; p++) {
      const [r, g, b] = raster.data.slice(3 * p, 3 * p + 3).map((v) => v >> (depth - 6));
      cells.add((r << 12) | (g << 6) | b);
    }
    for (let i = 0; i < census.count; i++) {
      const own = transform(into, [census.rgb[3 * i], census.rgb[3 * i + 1], census.rgb[3 * i + 2]]);
      const codes = own.map((v) =>
        Math.min(63, Math.floor((64 * (2 ** depth - 1) * encode({ kind: 'srgb' }, v) + 1e-3) / 2 ** depth)),
      );
      expect(cells.has((codes[0] << 12) | (codes[1] << 6) | codes[2])).toBe(true);
    }
  }
});

// From a megapixel on, 8-bit colours are counted one by one.
test.each([
  { channels: 3, some: false },
  { channels: 3, some: true },
  { channels: 4, some: false },
] as const)('sums of a large picture ($channels channels, some: $some)', ({ channels, some }) => {
  const small = rasterOf({ pixels: 4099, channels, depth: 8, space: DISPLAY_P3, kind: 0, seed: 8 });
  const data = new Uint8Array(4099 * 257 * channels);
  for (let y = 0; y < 257; y++) data.set(small.data, y * small.data.length);
  const raster = { ...small, height: 257, data };
  const chosen = some ? Uint8Array.from({ length: 4099 * 257 }, (_, p) => (p % 7 ? 1 : 0)) : undefined;
  const mine = total(takeCensus(raster, chosen));
  const theirs = bruteForce(raster, chosen);
  expect(mine.area).toBeCloseTo(theirs.area, 6);
  expect(mine.floor).toBeCloseTo(theirs.floor, 6);
  expect(mine.ceiling).toBeCloseTo(theirs.ceiling, 6);
  for (let c = 0; c < 3; c++) expect(mine.rgb[c]).toBeCloseTo(theirs.rgb[c], 4);
});

describe('what fills much of the picture is told apart finely', () => {
  // A smooth sky: 40 000 colours within two 6-bit cells.
  const ramp = (depth: 8 | 16): Raster => {
    const data = depth === 8 ? new Uint8Array(3 * 40_000) : new Uint16Array(3 * 40_000);
    for (let p = 0; p < 40_000; p++) data.fill((0.5 + (0.03 * p) / 40_000) * 2 ** depth, 3 * p, 3 * p + 3);
    return { width: 200, height: 200, channels: 3, depth, data, space: SRGB };
  };
  test('8 bit: one cell for each code value', () => expect(takeCensus(ramp(8)).count).toBe(8));
  test('16 bit: finer than 8 bits', () => {
    const census = takeCensus(ramp(16));
    expect(census.count).toBeGreaterThan(30);
    expect(Math.max(...census.share)).toBeLessThan(0.04);
  });
});

test('the same colours tagged sRGB and Display P3 give the same census to within rounding', () => {
  const random = randomNumbers(11);
  const p3 = new Uint16Array(3 * 5000);
  const srgb = new Uint16Array(3 * 5000);
  const into = fromSrgb(DISPLAY_P3);
  for (let p = 0; p < 5000; p++) {
    for (let c = 0; c < 3; c++) srgb[3 * p + c] = Math.floor(65536 * random());
    const light = [0, 1, 2].map((c) => decode({ kind: 'srgb' }, srgb[3 * p + c] / 65535));
    const own = transform(into, [light[0], light[1], light[2]]);
    for (let c = 0; c < 3; c++) p3[3 * p + c] = Math.round(65535 * encode({ kind: 'srgb' }, own[c]));
  }
  const raster = { width: 5000, height: 1, channels: 3, depth: 16 } as const;
  const a = total(takeCensus({ ...raster, data: srgb, space: SRGB }));
  const b = total(takeCensus({ ...raster, data: p3, space: DISPLAY_P3 }));
  for (let c = 0; c < 3; c++) expect(Math.abs(a.rgb[c] - b.rgb[c]) / 5000).toBeLessThan(1e-6);
});

test('OKLab of each cell is that of its mean', () => {
  const census = takeCensus(rasterOf({ pixels: 200, channels: 3, depth: 8, space: SRGB, kind: 0, seed: 9 }));
  for (let i = 0; i < census.count; i++) {
    const lab = linearToOklab([census.rgb[3 * i], census.rgb[3 * i + 1], census.rgb[3 * i + 2]]);
    for (let c = 0; c < 3; c++) expect(census.lab[3 * i + c]).toBeCloseTo(lab[c], 12);
  }
});

test('a wholly transparent picture has no cells', () => {
  const data = new Uint8Array(4 * 100);
  const census = takeCensus({ width: 10, height: 10, channels: 4, depth: 8, data, space: SRGB });
  expect(census.count).toBe(0);
  expect(census.area).toBe(0);
});

test('bytes that start at an odd place are read alike', () => {
  const source = rasterOf({ pixels: 101, channels: 3, depth: 8, space: SRGB, kind: 0, seed: 4 });
  const shifted = new Uint8Array(source.data.length + 1);
  shifted.set(source.data, 1);
  expect(takeCensus({ ...source, data: shifted.subarray(1) })).toEqual(takeCensus(source));
});

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromSrgb } from '../../src/colour/gamut.ts';
import { transform } from '../../src/colour/matrix.ts';
import { DISPLAY_P3, SRGB } from '../../src/colour/rgbSpaces.ts';
import { srgbToLinear } from '../../src/colour/transfer.ts';
import { makeCloseView } from '../../src/views/average.ts';
import { makeViews } from '../../src/views/makeViews.ts';
import type { Raster } from '../../src/views/raster.ts';
import { reduceView } from '../../src/views/resample.ts';
import type { View } from '../../src/views/view.ts';
import { randomNumbers } from '../colour/random.ts';

interface CloseCase {
  readonly width: number;
  readonly height: number;
  readonly channels: 3 | 4;
  readonly cw: number;
  readonly ch: number;
  readonly limit: number;
  readonly rgb: readonly number[];
  readonly alpha: readonly number[] | null;
}
// Block means and Gaussian filter of NumPy and SciPy (oracle/views.py).
const ORACLE: {
  close: CloseCase[];
  whole: { width: number; height: number; ww: number; wh: number; step: number; light: number[] };
} = JSON.parse(readFileSync(new URL('./oracle/views.json', import.meta.url), 'utf8'));

const worst = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  let w = Math.abs(a.length - b.length);
  for (let i = 0; i < a.length; i++) w = Math.max(w, Math.abs(a[i] - b[i]));
  return w;
};

/** The picture of `codes` in oracle/views.py. */
function patterned(width: number, height: number, channels: 3 | 4, depth: 8 | 16 = 8): Raster {
  const length = channels * width * height;
  const data = depth === 8 ? new Uint8Array(length) : new Uint16Array(length);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < channels; c++, i++) {
        const v = (x * 37 + y * 91 + c * 53 + x * y * 7) % 256;
        data[i] = depth === 8 ? v : 257 * v;
      }
  return { width, height, channels, depth, data, space: SRGB };
}

describe('close view', () => {
  test.each(ORACLE.close)('$width × $height × $channels to $cw × $ch', (one) => {
    for (const depth of [8, 16] as const) {
      const raster = patterned(one.width, one.height, one.channels, depth);
      const view = makeCloseView(raster, one.limit);
      expect([view.width, view.height]).toEqual([one.cw, one.ch]);
      expect(worst(view.rgb, one.rgb)).toBeLessThan(3e-7);
      if (one.alpha) expect(worst(view.alpha ?? [], one.alpha)).toBeLessThan(3e-7);
      else expect(view.alpha).toBeNull();
    }
  });

  test('a small picture is only made linear', () => {
    const raster = patterned(13, 9, 3);
    const view = makeCloseView(raster);
    expect(view.scale).toBe(1);
    expect(
      worst(
        view.rgb,
        Array.from(raster.data, (v) => srgbToLinear(v / 255)),
      ),
    ).toBeLessThan(1e-7);
  });

  // The same light must come out of every way of reading pixels: words of four bytes, bytes, 16 bits, other curves.
  test.each([
    [64, 40],
    [61, 37],
    [60, 33],
  ])('all ways of reading %i × %i pixels agree', (width, height) => {
    const raster = patterned(width, height, 3);
    const plain = makeCloseView(raster, 200);
    const shifted = new Uint8Array(raster.data.length + 1);
    shifted.set(raster.data, 1);
    const [curve] = SRGB.curves;
    const others: Raster[] = [
      { ...raster, data: shifted.subarray(1) },
      patterned(width, height, 3, 16),
      { ...raster, space: { ...SRGB, curves: [curve, { ...curve }, { ...curve }] } },
    ];
    for (const other of others) expect(worst(makeCloseView(other, 200).rgb, plain.rgb)).toBeLessThan(2e-7);
    const opaque = new Uint8Array(4 * width * height).fill(255);
    for (let p = 0; p < width * height; p++) opaque.set(raster.data.subarray(3 * p, 3 * p + 3), 4 * p);
    const covered = makeCloseView({ ...raster, channels: 4, data: opaque }, 200);
    expect(worst(covered.rgb, plain.rgb)).toBeLessThan(2e-7);
    expect(worst(covered.alpha ?? [], new Array(plain.rgb.length / 3).fill(1))).toBeLessThan(2e-7);
  });

  test('Display P3 stays unclipped', () => {
    const data = new Uint8Array([0, 255, 0]);
    const view = makeCloseView({ width: 1, height: 1, channels: 3, depth: 8, data, space: DISPLAY_P3 });
    // P3 green in linear sRGB (CSS Color 4 matrices).
    expect(worst(view.rgb, [-0.2249, 1.0421, -0.0786])).toBeLessThan(1e-4);
    const own = transform(fromSrgb(DISPLAY_P3), [view.rgb[0], view.rgb[1], view.rgb[2]]);
    expect(worst(own, [0, 1, 0])).toBeLessThan(1e-6);
  });

  test('fully transparent places stay black and uncovered, and their colour leaks nowhere', () => {
    const data = new Uint8Array(4 * 64);
    for (let p = 0; p < 64; p++) data.set(p % 8 < 4 ? [255, 0, 0, 0] : [0, 0, 255, 255], 4 * p);
    const view = makeCloseView({ width: 8, height: 8, channels: 4, depth: 8, data, space: SRGB }, 9);
    for (let p = 0; p < 9; p++) {
      expect(view.rgb[3 * p]).toBe(0);
      expect(view.rgb[3 * p + 2]).toBeCloseTo(p % 3 === 0 ? 0 : 1, 6);
    }
    expect([view.alpha?.[0], view.alpha?.[1], view.alpha?.[2]]).toEqual([0, 0.5, 1]);
  });
});

describe('whole view', () => {
  const { width, height, ww, wh, step, light } = ORACLE.whole;
  const data = new Uint8Array(3 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const v = 120 + 90 * Math.sin(x / 40) * Math.cos(y / 30) + (x > 0.6 * width ? 40 : 0);
      data.fill(Math.floor(Math.min(255, Math.max(0, v))), 3 * (y * width + x), 3 * (y * width + x) + 3);
    }
  const { whole } = makeViews({ width, height, channels: 3, depth: 8, data, space: SRGB });
  test('is the Gaussian of 1/80 of the long side', () => {
    expect([whole.width, whole.height]).toEqual([ww, wh]);
    const green: number[] = [];
    for (let y = 0; y < wh; y += step)
      for (let x = 0; x < ww; x += step) green.push(whole.rgb[3 * (y * ww + x) + 1]);
    // It is made on a smaller copy, and cut off at 3 σ: within 0.004 of the full-size filter everywhere.
    expect(worst(green, light)).toBeLessThan(0.004);
  });
});

const sizes = fc.record({
  width: fc.integer({ min: 1, max: 60 }),
  height: fc.integer({ min: 1, max: 60 }),
  channels: fc.constantFrom(3, 4),
  limit: fc.integer({ min: 1, max: 900 }),
  seed: fc.integer(),
});

/** Mean light of a view, weighted by its cover. */
function meanOf({ rgb, alpha }: View): number[] {
  const sum = [0, 0, 0, 0];
  for (let p = 0; 3 * p < rgb.length; p++) {
    const weight = alpha ? alpha[p] : 1;
    for (let c = 0; c < 3; c++) sum[c] += weight * rgb[3 * p + c];
    sum[3] += weight;
  }
  return sum[3] > 0 ? sum.slice(0, 3).map((v) => v / sum[3]) : [0, 0, 0];
}

describe('properties', () => {
  test('the mean light of the picture is kept at any size', () => {
    fc.assert(
      fc.property(
        sizes,
        fc.integer({ min: 1, max: 60 }),
        ({ width, height, channels, limit, seed }, long) => {
          const random = randomNumbers(seed);
          const data = Uint8Array.from({ length: width * height * channels }, () =>
            Math.floor(256 * random()),
          );
          const raster: Raster = { width, height, channels, depth: 8, data, space: SRGB };
          const full = meanOf(makeCloseView(raster));
          const close = makeCloseView(raster, limit);
          expect(worst(meanOf(close), full)).toBeLessThan(1e-5);
          expect(worst(meanOf(reduceView(close, long)), full)).toBeLessThan(1e-5);
        },
      ),
      { numRuns: 200, seed: 6 },
    );
  });
  test('a picture of one colour stays that colour in every view', () => {
    fc.assert(
      fc.property(sizes, fc.tuple(fc.nat(255), fc.nat(255), fc.nat(255)), (size, colour) => {
        const { width, height, channels } = size;
        const data = new Uint8Array(width * height * channels).fill(255);
        for (let p = 0; p < width * height; p++) data.set(colour, channels * p);
        const views = makeViews({ width, height, channels, depth: 8, data, space: SRGB });
        const light = colour.map((v) => srgbToLinear(v / 255));
        for (const view of [views.close, views.whole])
          for (let i = 0; i < view.rgb.length; i++)
            if (Math.abs(view.rgb[i] - light[i % 3]) > 1e-6) throw new Error(`place ${i} has moved`);
      }),
      { numRuns: 100, seed: 7 },
    );
  });
});

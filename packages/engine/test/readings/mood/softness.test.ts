import { describe, expect, test } from 'vitest';
import { luminanceOf } from '../../../src/colour/cielab.ts';
import { SRGB } from '../../../src/colour/rgbSpaces.ts';
import { linearToSrgb } from '../../../src/colour/transfer.ts';
import { edgeSoftness } from '../../../src/readings/mood/softness.ts';
import { makeCloseView } from '../../../src/views/average.ts';
import type { Raster } from '../../../src/views/raster.ts';

/** The normal distribution function (Abramowitz & Stegun 7.1.26, good to 10⁻⁷). */
function phi(z: number): number {
  const t = 1 / (1 + (0.3275911 * Math.abs(z)) / Math.SQRT2);
  const tail =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const erf = 1 - tail * Math.exp((-z * z) / 2);
  return z < 0 ? (1 - erf) / 2 : (1 + erf) / 2;
}

/** Upright bars in L* whose edges are blurred with a standard deviation in thousandths of the width. */
function bars(permille: number, width = 960, count = 4): Raster {
  const height = Math.round(width * 0.6);
  const data = new Uint8Array(3 * width * height);
  const sigma = Math.max(1e-6, permille / 1000);
  for (let x = 0; x < width; x++) {
    let L = 30;
    for (let k = 1; k < 2 * count; k++) {
      const step = ((x + 0.5) / width - k / (2 * count)) / sigma;
      L += (k % 2 ? 1 : -1) * 40 * phi(step);
    }
    const v = Math.round(255 * linearToSrgb(luminanceOf(L)));
    for (let y = 0; y < height; y++) data.fill(v, 3 * (y * width + x), 3 * (y * width + x) + 3);
  }
  return { width, height, channels: 3, depth: 8, data, space: SRGB };
}

const softness = (raster: Raster) => edgeSoftness(makeCloseView(raster), null);

describe('the width of a blurred edge is found again', () => {
  test.each([4, 6, 9, 14])('%d ‰', (permille) => {
    // Within 10 %, and half a thousandth for what the small copy itself blurs.
    expect(Math.abs(softness(bars(permille))! - permille)).toBeLessThan(0.1 * permille + 0.5);
  });

  test('hard edges read as hard as the small copy can show', () => {
    // Pixel and difference of two pixels: √(1/12 + 1/3) = 0.65 px of 320, 2.0 ‰; the blurs are cut at 3 σ.
    expect(Math.abs(softness(bars(0))! - 2)).toBeLessThan(0.6);
  });

  test('softer is more, step by step', () => {
    const found = [0, 2, 4, 8, 16].map((s) => softness(bars(s))!);
    for (let i = 1; i < found.length; i++) expect(found[i]).toBeGreaterThan(found[i - 1]);
  });
});

test('the size of the picture does not matter', () => {
  const found = [480, 960, 1920].map((width) => softness(bars(8, width))!);
  expect(Math.max(...found) - Math.min(...found)).toBeLessThan(0.5);
});

test('a flat or tiny picture has no edges', () => {
  const flat: Raster = { ...bars(0), data: new Uint8Array(3 * 960 * 576).fill(120) };
  expect(softness(flat)).toBeNull();
  expect(softness(bars(0, 200))).toBeNull();
});

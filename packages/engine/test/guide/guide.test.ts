import { converter } from 'culori';
import { describe, expect, test } from 'vitest';
import { DISPLAY_P3, SRGB } from '../../src/colour/rgbSpaces.ts';
import type { Place } from '../../src/findings/finding.ts';
import { drawGuide, LEAST_SWATCH } from '../../src/guide/guide.ts';
import { overlap } from '../../src/guide/spot.ts';

const lit: [number, number, number] = [0.5, 0.3, 0.15];
const now: [number, number, number] = [0.08, 0.05, 0.03];
const should: [number, number, number] = [0.05, 0.05, 0.09];
const place = (outline: number[]): Place => ({
  x: 0,
  y: 0,
  width: 1,
  height: 1,
  share: 0.1,
  outline,
  swatches: [
    { label: 'lit', rgb: lit },
    { label: 'now', rgb: now },
    { label: 'in this light', rgb: should },
  ],
});
const large = place([0.1, 0.1, 0.6, 0.15, 0.55, 0.7, 0.12, 0.6]);
const tiny = place([0.9, 0.9, 0.92, 0.9, 0.92, 0.93]);
const size = { width: 900, height: 600 };

/** Code values by the general colour library culori. */
const codes = (rgb: readonly number[], mode: 'rgb' | 'p3'): number[] => {
  const c = converter(mode)({ mode: 'lrgb', r: rgb[0], g: rgb[1], b: rgb[2] });
  return [c.r, c.g, c.b].map((v) => Math.round(255 * v));
};

/** Largest square of one exact colour in a picture, by its side (dynamic programming). */
function squareOf(data: ArrayLike<number>, width: number, height: number, colour: number[]): number {
  const side = new Int32Array(width * height);
  let most = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const p = y * width + x;
      if (data[4 * p + 3] !== 255 || colour.some((v, c) => data[4 * p + c] !== v)) continue;
      side[p] = x && y ? 1 + Math.min(side[p - 1], side[p - width], side[p - width - 1]) : 1;
      most = Math.max(most, side[p]);
    }
  return most;
}

describe('guide layer', () => {
  test.each([
    ['sRGB', SRGB, 'rgb'],
    ['Display P3', DISPLAY_P3, 'p3'],
  ] as const)(
    'in %s its swatches are flat squares of the exact code values, the target the largest',
    (_, space, mode) => {
      const { data, width, height } = drawGuide([large], size, space);
      const sides = [lit, now, should].map((rgb) => squareOf(data, width, height, codes(rgb, mode)));
      expect(sides[0]).toBeGreaterThanOrEqual(LEAST_SWATCH);
      expect(sides[1]).toBeGreaterThanOrEqual(LEAST_SWATCH);
      expect(sides[2]).toBeGreaterThanOrEqual(2 * LEAST_SWATCH);
    },
  );

  test('everything else is transparent, and nothing is half-transparent', () => {
    const { data } = drawGuide([large], size, SRGB);
    const alphas = data.filter((_, i) => i % 4 === 3);
    expect(alphas.every((a) => a === 0 || a === 255)).toBe(true);
    expect(alphas.filter((a) => a === 0).length / alphas.length).toBeGreaterThan(0.85);
  });

  test('swatches of a place smaller than they are stay inside the picture', () => {
    const { data, width, height } = drawGuide([tiny], size, SRGB);
    expect(squareOf(data, width, height, codes(should, 'rgb'))).toBeGreaterThanOrEqual(2 * LEAST_SWATCH);
  });

  test('two places on one spot keep their swatches apart', () => {
    const other = {
      ...large,
      swatches: [{ label: 'in this light', rgb: [0.2, 0.02, 0.02] as [number, number, number] }],
    };
    const { data, width, height } = drawGuide([large, other], size, SRGB);
    for (const rgb of [should, [0.2, 0.02, 0.02]])
      expect(squareOf(data, width, height, codes(rgb, 'rgb'))).toBeGreaterThanOrEqual(2 * LEAST_SWATCH);
    expect(overlap({ x: 0, y: 0, width: 2, height: 2 }, { x: 2, y: 0, width: 1, height: 1 })).toBe(false);
  });

  test('no places: an empty layer', () =>
    expect(drawGuide([], size, SRGB).data.every((v) => v === 0)).toBe(true));
});

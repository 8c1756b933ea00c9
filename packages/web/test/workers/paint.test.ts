import { DISPLAY_P3, decode, encode, makeCloseView, type Raster, SRGB } from '@halflight/engine';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { paintView, paintWindow } from '../../src/workers/picture/paint.ts';

function raster(width: number, height: number, channels: 3 | 4, seed: number, space = SRGB): Raster {
  const data = new Uint8Array(width * height * channels);
  let state = seed;
  for (let i = 0; i < data.length; i++) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    data[i] = state >>> 24;
  }
  return { width, height, channels, depth: 8, data, space };
}

const whole = ({ width, height }: Raster, outWidth = width, outHeight = height) => ({
  x: 0,
  y: 0,
  width,
  height,
  outWidth,
  outHeight,
});

test('at its own size an opaque picture is painted with its own code values', () => {
  const picture = raster(31, 17, 3, 7);
  const pixels = paintWindow(picture, whole(picture), 'srgb');
  for (let p = 0; p < 31 * 17; p++) {
    for (let c = 0; c < 3; c++)
      expect(Math.abs(pixels[4 * p + c] - picture.data[3 * p + c])).toBeLessThanOrEqual(1);
    expect(pixels[4 * p + 3]).toBe(255);
  }
});

test('a Display P3 picture on a P3 screen keeps its code values, too', () => {
  const picture = raster(9, 9, 3, 3, DISPLAY_P3);
  const pixels = paintWindow(picture, whole(picture), 'display-p3');
  for (let i = 0; i < 81 * 3; i++) {
    expect(Math.abs(pixels[4 * Math.floor(i / 3) + (i % 3)] - picture.data[i])).toBeLessThanOrEqual(1);
  }
});

test('smaller: every place is the mean of what it covers, in linear light (computed pixel by pixel)', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 2, max: 40 }),
      fc.integer({ min: 2, max: 40 }),
      fc.integer(),
      (w, h, seed) => {
        const picture = raster(w, h, 3, seed);
        const [ow, oh] = [Math.max(1, Math.round(w / 2.7)), Math.max(1, Math.round(h / 1.9))];
        const pixels = paintWindow(picture, whole(picture, ow, oh), 'srgb');
        for (let j = 0; j < oh; j++) {
          for (let i = 0; i < ow; i++) {
            const expected = meanOf(
              picture,
              (i * w) / ow,
              ((i + 1) * w) / ow,
              (j * h) / oh,
              ((j + 1) * h) / oh,
            );
            for (let c = 0; c < 3; c++) {
              expect(
                Math.abs(pixels[4 * (j * ow + i) + c] - 255 * encode(SRGB.curves[c], expected[c])),
              ).toBeLessThan(1.6);
            }
          }
        }
      },
    ),
    { numRuns: 40 },
  );
});

function meanOf({ data, width }: Raster, x0: number, x1: number, y0: number, y1: number): number[] {
  const sum = [0, 0, 0];
  let area = 0;
  for (let y = Math.floor(y0); y < y1; y++) {
    for (let x = Math.floor(x0); x < x1; x++) {
      const part =
        (Math.min(x1, x + 1) - Math.max(x0, x)) * Math.max(0, Math.min(y1, y + 1) - Math.max(y0, y));
      if (part <= 0) continue;
      area += part;
      for (let c = 0; c < 3; c++)
        sum[c] += part * decode(SRGB.curves[c], data[3 * (y * width + x) + c] / 255);
    }
  }
  return sum.map((value) => value / area);
}

test('larger: plain squares', () => {
  const picture = raster(2, 1, 3, 11);
  const pixels = paintWindow(picture, whole(picture, 8, 4), 'srgb');
  for (let p = 0; p < 32; p++) {
    const source = p % 8 < 4 ? 0 : 1;
    expect(Math.abs(pixels[4 * p] - picture.data[3 * source])).toBeLessThanOrEqual(1);
  }
});

test('what is transparent adds no colour', () => {
  const data = new Uint8Array([255, 0, 0, 255, 0, 255, 0, 0]);
  const picture: Raster = { width: 2, height: 1, channels: 4, depth: 8, data, space: SRGB };
  expect([...paintWindow(picture, whole(picture, 1, 1), 'srgb')]).toEqual([255, 0, 0, 128]);
  expect([...paintView(makeCloseView(picture), 'srgb').subarray(0, 4)]).toEqual([255, 0, 0, 255]);
});

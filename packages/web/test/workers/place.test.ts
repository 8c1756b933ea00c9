import { A98_RGB, DISPLAY_P3, type Raster, SRGB } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import { placeWords, readPlace } from '../../src/workers/picture/place.ts';

const flat = (rgb: readonly number[], space = SRGB, channels: 3 | 4 = 3): Raster => ({
  width: 8,
  height: 6,
  channels,
  depth: 8,
  data: Uint8Array.from({ length: 48 * channels }, (_, i) => rgb[i % channels]),
  space,
});

describe('the code value is the picture’s own', () => {
  test.each([SRGB, DISPLAY_P3, A98_RGB])('$name', (space) => {
    const place = readPlace(flat([18, 200, 97], space), 0.5, 0.5, 2);
    expect(place.hex).toBe('#12c861');
    expect(place.space).toBe(space.name);
  });
});

test('lightness of the greys is CIELAB’s: sRGB 119 is L* 50.03 (CIE 15, computed by hand)', () => {
  const { lightness, hue, words } = readPlace(flat([119, 119, 119]), 0.1, 0.9, 0);
  expect(lightness).toBeCloseTo(50.03, 1);
  expect(hue).toBeNull();
  expect(words).toBe('Neutral grey, of middle lightness.');
});

test('a disc is the mean in linear light', () => {
  const picture = flat([0, 0, 0]);
  const data = picture.data as Uint8Array;
  for (let p = 0; p < 48; p++) if (p % 8 >= 4) data.fill(255, 3 * p, 3 * p + 3);
  const { rgb } = readPlace({ ...picture, data }, 0.5, 0.5, 1);
  // A cross of five pixels around (4, 3): one of them, (3, 3), is black.
  expect(rgb[0]).toBeCloseTo(0.8, 6);
});

test('where nothing is painted, nothing is read', () => {
  expect(readPlace(flat([9, 9, 9, 0], SRGB, 4), 0.5, 0.5, 1).painted).toBe(false);
});

test.each<[number, [number, number, number], string]>([
  [5, [0.18, 0.1, 285], 'Violet-blue, nearly black, clear.'],
  [40, [0.45, 0.06, 50], 'Brown, rather dark, muted.'],
  [95, [0.96, 0.2, 100], 'Yellow, nearly white, strong.'],
  [60, [0.67, 0.03, 240], 'Sky blue, rather light, greyed.'],
  [60, [0.67, 0.01, 240], 'Neutral grey, rather light.'],
])('L* %d, OKLCh %o: %s', (light, lch, words) => {
  expect(placeWords(light, lch)).toBe(words);
});

import type { Field } from '@halflight/engine';
import { expect, test } from 'vitest';
import { isInPlace } from '../../src/parts/stage/places.ts';
import { placesOf } from '../../src/workers/picture/places.ts';

/** A map with boxes of ones. */
function boxes(width: number, height: number, ...list: [number, number, number, number][]): Field {
  const data = new Float32Array(width * height);
  for (const [x0, y0, x1, y1] of list)
    for (let y = y0; y < y1; y++) data.fill(1, y * width + x0, y * width + x1);
  return { width, height, data };
}

test('separate places come the largest first, each around what the map flags', () => {
  const [first, second, ...rest] = placesOf(boxes(200, 100, [10, 10, 30, 30], [100, 40, 180, 90]));
  expect(rest).toEqual([]);
  expect(first.share).toBeCloseTo(0.2, 2);
  expect(second.share).toBeCloseTo(0.02, 2);
  // Softening moves a straight border outwards by about one place of the grid.
  expect(Math.abs(first.x - 0.5)).toBeLessThan(0.02);
  expect(Math.abs(first.y + first.height - 0.9)).toBeLessThan(0.03);
  expect(isInPlace(first, 0.7, 0.65)).toBe(true);
  expect(isInPlace(second, 0.7, 0.65)).toBe(false);
});

test('what is interrupted by narrow things is one place', () => {
  const slats = Array.from({ length: 10 }, (_, i): [number, number, number, number] => [
    20 + 8 * i,
    20,
    25 + 8 * i,
    60,
  ]);
  const places = placesOf(boxes(200, 100, ...slats));
  expect(places).toHaveLength(1);
  expect(places[0].share).toBeCloseTo((10 * 5 * 40) / 20000, 2);
});

test('a large map is found on a smaller grid, at the same place', () => {
  const [place] = placesOf(boxes(1500, 900, [300, 300, 600, 600]));
  expect(Math.abs(place.x - 0.2)).toBeLessThan(0.02);
  expect(Math.abs(place.height - 1 / 3)).toBeLessThan(0.04);
});

test('specks and empty maps have no places', () => {
  expect(placesOf(boxes(100, 100, [5, 5, 7, 8]))).toEqual([]);
  expect(placesOf(boxes(100, 100))).toEqual([]);
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planeOf } from '../../src/numbers/plane.ts';
import { collapse, laplacianPyramid } from '../../src/numbers/pyramid.ts';

// Burt & Adelson 1983: the pyramid is a complete code of the picture.
test('a Laplacian pyramid gives any picture back', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 70 }),
      fc.integer({ min: 1, max: 70 }),
      fc.integer(),
      (w, h, seed) => {
        const plane = planeOf(w, h, (p) => 100 * Math.abs(Math.sin(p * 12.9898 + seed)));
        const back = collapse(laplacianPyramid(plane, 6));
        for (let p = 0; p < w * h; p++) expect(Math.abs(back.data[p] - plane.data[p])).toBeLessThan(1e-4);
      },
    ),
    { numRuns: 60 },
  );
});

test('an even plane has nothing in its fine levels', () => {
  const levels = laplacianPyramid(
    planeOf(33, 20, () => 42),
    3,
  );
  for (const level of levels.slice(0, -1)) for (const v of level.data) expect(Math.abs(v)).toBeLessThan(1e-4);
});

// Burt & Adelson 1983, equations 1 and 2: REDUCE weighs by 1 4 6 4 1 / 16, EXPAND by twice that on every second place.
// That a pyramid gives its picture back says nothing of the weights, which cancel out; these values do.
test('its weights are those of the paper', () => {
  const impulse = planeOf(17, 17, (p) => (p === 8 * 17 + 8 ? 256 : 0));
  const coarse = laplacianPyramid(impulse, 1)[1];
  const row = (y: number, from: number, to: number, { width, data }: typeof coarse) => [
    ...data.slice(y * width + from, y * width + to),
  ];
  expect([3, 4, 5].map((y) => row(y, 2, 7, coarse))).toEqual([
    [0, 1 * 1, 6 * 1, 1 * 1, 0],
    [0, 1 * 6, 6 * 6, 1 * 6, 0],
    [0, 1 * 1, 6 * 1, 1 * 1, 0],
  ]);
  const nothing = planeOf(17, 17, () => 0);
  const spread = collapse([nothing, planeOf(9, 9, (p) => (p === 4 * 9 + 4 ? 64 : 0))]);
  expect([5, 6, 7, 8].map((y) => row(y, 5, 12, spread))).toEqual(
    [0, 1, 4, 6].map((down) => [0, 1, 4, 6, 4, 1, 0].map((across) => down * across)),
  );
});

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

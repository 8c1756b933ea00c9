import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { type Corners, homography, project } from '../../src/class/homography.ts';

interface Case {
  readonly from: Corners;
  readonly to: Corners;
  readonly matrix: number[];
  readonly probes: [number, number][];
  readonly mapped: [number, number][];
}

/** Made by oracle/homography.py with skimage.transform.ProjectiveTransform. */
const CASES: Case[] = JSON.parse(readFileSync(new URL('./oracle/homography.json', import.meta.url), 'utf8'));

test.each(CASES.map((one, k) => [k, one] as const))('map %i is that of scikit-image', (_, one) => {
  const h = homography(one.from, one.to)!;
  for (const [k, [x, y]] of one.probes.entries()) {
    const [u, v] = project(h, x, y);
    expect(u).toBeCloseTo(one.mapped[k][0], 6);
    expect(v).toBeCloseTo(one.mapped[k][1], 6);
  }
  expect(h[0]).toBeCloseTo(one.matrix[0], 8);
  expect(h[7]).toBeCloseTo(one.matrix[7], 8);
});

test('three points on a line make no map', () => {
  const unit: Corners = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ];
  expect(
    homography(
      [
        [0, 0],
        [1, 1],
        [2, 2],
        [0, 1],
      ],
      unit,
    ),
  ).toBeNull();
});

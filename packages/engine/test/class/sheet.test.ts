import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { type Corners, homography, project } from '../../src/class/homography.ts';
import { findSheet, takeOut } from '../../src/class/sheet.ts';
import type { Raster } from '../../src/views/raster.ts';
import { grain, PICTURES, paint } from '../readings/pictures.ts';

const WIDTH = 400;
const HEIGHT = 300;
/** Maps of a sheet of 300 × 200 onto the photograph, made by scikit-image (oracle/homography.py). */
const CASES: { to: Corners }[] = JSON.parse(
  readFileSync(new URL('./oracle/homography.json', import.meta.url), 'utf8'),
);
const SHEET: Corners = [
  [0, 0],
  [300, 0],
  [300, 200],
  [0, 200],
];
const GROUNDS = { table: [0.33, 0.25, 0.17], wall: [0.75, 0.74, 0.7], dark: [0.02, 0.02, 0.02] } as const;

/** A picture lying on a ground, photographed: a known map, a lamp that falls off, noise. */
function photograph(name: string, corners: Corners, ground: keyof typeof GROUNDS): Raster {
  const back = homography(corners, SHEET)!;
  const painter = PICTURES[name];
  return paint(WIDTH, HEIGHT, (u, v) => {
    const lamp = 1.05 - 0.2 * u - 0.1 * v;
    const noise = 0.004 * (grain(Math.floor(u * WIDTH), Math.floor(v * HEIGHT), 3) - 0.5);
    // Four samples a pixel, as a lens would soften an edge.
    const sum = [0, 0, 0];
    for (const [dx, dy] of [
      [0.25, 0.25],
      [0.75, 0.25],
      [0.25, 0.75],
      [0.75, 0.75],
    ]) {
      const [x, y] = project(back, u * WIDTH - 0.5 + dx, v * HEIGHT - 0.5 + dy);
      const inside = x >= 0 && y >= 0 && x < 300 && y < 200;
      const colour = inside ? painter(x / 300, y / 200) : GROUNDS[ground];
      for (let c = 0; c < 3; c++) sum[c] += colour[c] / 4;
    }
    return sum.map((c) => Math.max(0, lamp * c + noise)) as [number, number, number];
  });
}

/** Pearson's r of two rows of numbers. */
function correlation(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const mean = (of: ArrayLike<number>): number => Array.from(of).reduce((sum, v) => sum + v, 0) / of.length;
  const [ma, mb] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    ab += (a[i] - ma) * (b[i] - mb);
    aa += (a[i] - ma) ** 2;
    bb += (b[i] - mb) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

describe('a photograph of a work', () => {
  const cases = [
    ['dusk', 'wall', 0],
    ['meadow', 'table', 1],
    ['fog', 'dark', 2],
    ['market', 'table', 3],
    ['market', 'wall', 4],
    ['meadow', 'dark', 5],
  ] as const;
  test.each(cases)('%s on a ground like a %s: corners within 1 %% of the width', (name, ground, k) => {
    const { to } = CASES[k];
    const found = findSheet(photograph(name, to, ground), false);
    expect(found?.kind).toBe('photograph');
    for (const [c, [x, y]] of found!.corners.entries())
      expect(Math.hypot(x - to[c][0], y - to[c][1])).toBeLessThan(0.01 * WIDTH);
  });

  test('is cut out, made upright, and its light is left unjudged', () => {
    const { to } = CASES[0];
    const taken = takeOut(photograph('dusk', to, 'wall'), false);
    expect(taken.photographed).toBe(true);
    expect(taken.note).toMatch(/straightened.*light is not judged/);
    // The picture as it was painted, sampled at the same places.
    const { width, height, data } = taken.raster;
    expect(width / height).toBeGreaterThan(1.1);
    const flat = paint(width, height, PICTURES.dusk);
    const turned = paint(width, height, (u, v) => PICTURES.dusk(1 - u, 1 - v));
    // The lamp changes the values, not what is where.
    const upright = correlation(data, flat.data);
    expect(upright).toBeGreaterThan(0.93);
    expect(correlation(data, turned.data)).toBeLessThan(upright - 0.3);
  });

  test('that fills the frame is read whole, and said so', () => {
    const raster = paint(200, 140, PICTURES.dusk);
    expect(takeOut(raster, true)).toMatchObject({ raster, photographed: true, found: null });
  });
});

describe('a screenshot of a work', () => {
  const raster = paint(240, 400, (u, v) => {
    const [x, y] = [u * 240, v * 400];
    if (y < 60) return x > 20 && x < 60 && y > 20 && y < 30 ? [0.8, 0.8, 0.8] : [0.01, 0.01, 0.012];
    if (y >= 220) return y > 300 && y < 310 && x % 20 < 10 ? [0.5, 0.5, 0.5] : [0.02, 0.02, 0.024];
    return PICTURES.market(u, (y - 60) / 160);
  });

  test('is cut out of its margins to the pixel', () => {
    const taken = takeOut(raster, false);
    expect(taken.found).toEqual({
      kind: 'screenshot',
      corners: [
        [0, 60],
        [240, 60],
        [240, 220],
        [0, 220],
      ],
    });
    expect(taken.raster).toMatchObject({ width: 240, height: 160 });
    expect(taken.note).toMatch(/screenshot/);
  });
});

describe('a clean export', () => {
  const sizes = [
    [300, 200],
    [200, 280],
    [161, 97],
    [320, 320],
  ] as const;
  const clean = Object.keys(PICTURES).flatMap((name) => sizes.map(([w, h]) => [name, w, h] as const));
  test.each(clean)('%s at %i × %i is left as it is', (name, w, h) => {
    const raster = paint(w, h, PICTURES[name]);
    expect(takeOut(raster, false)).toEqual({ raster, photographed: false, note: null, found: null });
  });

  const flat: [string, (u: number, v: number) => [number, number, number]][] = [
    ['one colour', () => [0.2, 0.2, 0.3]],
    [
      'a white margin of the painter’s own',
      (u, v) => (Math.min(u, v, 1 - u, 1 - v) < 0.08 ? [1, 1, 1] : [...PICTURES.market(u, v)]),
    ],
    [
      'black bars above and below',
      (u, v) => (Math.abs(v - 0.5) > 0.38 ? [0, 0, 0] : [...PICTURES.dusk(u, v)]),
    ],
    [
      'a sky of even rows with a bird in it',
      (u, v) =>
        v < 0.6 && Math.hypot(u - 0.5, v - 0.1) > 0.04 ? [0.3 * v, 0.2 * v, 0.4] : [...PICTURES.market(u, v)],
    ],
    [
      'a round moon on an even sky',
      (u, v) => (Math.hypot(u - 0.5, v - 0.5) < 0.3 ? [0.9, 0.9, 0.7] : [0.02, 0.03, 0.08]),
    ],
    [
      'a figure on flat ground',
      (u, v) => (Math.abs(u - 0.5) < 0.25 * v && v > 0.2 ? [0.5, 0.2, 0.1] : [0.6, 0.6, 0.5]),
    ],
    [
      'an upright door in a wall',
      (u, v) => (u > 0.2 && u < 0.8 && v > 0.1 && v < 0.9 ? [0.4, 0.2, 0.1] : [0.5, 0.5, 0.45]),
    ],
  ];
  test.each(flat)('%s is left as it is', (_, painter) => {
    expect(takeOut(paint(240, 160, painter), false).found).toBeNull();
  });
});

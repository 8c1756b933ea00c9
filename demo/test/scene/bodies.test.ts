/** Where rays meet bodies, against values from plane and solid geometry. */
import { describe, expect, it } from 'vitest';
import { hitSolid } from '../../src/scene/meet.ts';
import { plain } from '../../src/scene/pigments.ts';
import { localNormal, solidOf } from '../../src/scene/solid.ts';
import type { Body, Shape, Vec } from '../../src/scene/types.ts';

const material = { name: 'any', pigment: plain([0.5, 0.5, 0.5]) };
const meet = (shape: Shape, from: Vec, dir: Vec, place: Partial<Body> = {}) => {
  const l = Math.hypot(...dir);
  const solid = solidOf({ shape, material, ...place }, 0, 0);
  return hitSolid(solid, ...from, dir[0] / l, dir[1] / l, dir[2] / l, 1e-9, Infinity);
};

const box: Shape = { kind: 'box', size: [2, 4, 6] };
const ball: Shape = { kind: 'sphere', radius: 2 };
const can: Shape = { kind: 'cylinder', radius: 1, height: 3 };
const cone: Shape = { kind: 'cylinder', radius: 1, height: 2, top: 0 };
const roof: Shape = { kind: 'roof', size: [2, 1, 4] };
const octahedron: Shape = {
  kind: 'convex',
  planes: [-1, 1].flatMap((x) => [-1, 1].flatMap((y) => [-1, 1].map((z) => [x, y, z, 1] as const))),
  bounds: [1, 1, 1],
};
const bowl: Shape = { kind: 'terrain', size: [8, 8], cells: [64, 64], height: (x, z) => 0.5 * x + 0.25 * z };

describe('rays and bodies', () => {
  it.each<[string, Shape, Vec, Vec, number, Partial<Body>?]>([
    ['plane from above at 45°', { kind: 'plane' }, [0, 2, 0], [1, -1, 0], 2 * Math.SQRT2],
    ['plane missed beyond its size', { kind: 'plane', halfX: 1, halfZ: 1 }, [0, 2, 0], [1, -1, 0], Infinity],
    ['box face on', box, [0, 0, 10], [0, 0, -1], 7],
    ['box from inside', box, [0, 0, 0], [0, 1, 0], 2],
    ['box missed', box, [3, 0, 10], [0, 0, -1], Infinity],
    ['box along its diagonal', box, [2, 4, 6], [-1, -2, -3], Math.sqrt(14)],
    ['box turned by 90° shows its long side', box, [0, 0, 10], [0, 0, -1], 9, { turn: [0, 90, 0] }],
    [
      'box turned by 45° shows its edge',
      { kind: 'box', size: [2, 2, 2] },
      [0, 0, 10],
      [0, 0, -1],
      10 - Math.SQRT2,
      { turn: [0, 45, 0] },
    ],
    ['box moved', box, [0, 0, 10], [0, 0, -1], 6, { at: [0, 0, 1] }],
    ['ball through its middle', ball, [0, 0, 5], [0, 0, -1], 3],
    ['ball off its middle', ball, [1, 0, 5], [0, 0, -1], 5 - Math.sqrt(3)],
    ['ball grazed outside', ball, [2.0001, 0, 5], [0, 0, -1], Infinity],
    ['can on its mantle', can, [0.6, 1, 5], [0, 0, -1], 5 - 0.8],
    ['can on its lid', can, [0.5, 10, 0.5], [0, -1, 0], 7],
    ['can missed above', can, [0, 3.01, 5], [0, 0, -1], Infinity],
    ['cone at half its height', cone, [0, 1, 5], [0, 0, -1], 4.5],
    ['cone above its tip', cone, [0, 2.01, 5], [0, 0, -1], Infinity],
    ['roof at half its height', roof, [5, 0.5, 0], [-1, 0, 0], 4.5],
    ['roof on its gable', roof, [0, 0.5, 5], [0, 0, -1], 3],
    ['roof beside its ridge', roof, [0.9, 0.5, 5], [0, 0, -1], Infinity],
    [
      'wedge: ridge moved to the side',
      { kind: 'roof', size: [2, 1, 4], ridge: 1 },
      [5, 0.5, 0],
      [-1, 0, 0],
      4,
    ],
    ['octahedron along an axis', octahedron, [5, 0, 0], [-1, 0, 0], 4],
    ['octahedron face on', octahedron, [2, 2, 2], [-1, -1, -1], 2 * Math.sqrt(3) - 1 / Math.sqrt(3)],
    // y = 0.5x + 0.25z; bilinear patches hold a plane exactly.
    ['slope from straight above', bowl, [1, 5, 2], [0, -1, 0], 4],
    ['slope along x', bowl, [-3, 1, 0], [1, 0, 0], 5],
    // 8 − 4s = 0.75·(3.9 − s) at s = 5.075/3.25.
    ['slope across blocks, oblique', bowl, [3.9, 8, 3.9], [-1, -4, -1], (5.075 / 3.25) * Math.sqrt(18)],
    ['slope left by the ray before it is met', bowl, [3.9, 8, 3.9], [-1, -1, -1], Infinity],
  ])('%s', (_name, shape, from, dir, distance, place) => {
    const t = meet(shape, from, dir, place);
    if (distance === Infinity) expect(t).toBe(Infinity);
    else expect(t).toBeCloseTo(distance, 9);
  });

  it('terrain: agrees with a fine search along random rays', () => {
    const height = (x: number, z: number) => Math.sin(1.3 * x) * Math.cos(0.9 * z);
    const shape: Shape = { kind: 'terrain', size: [10, 10], cells: [200, 200], height };
    let hits = 0;
    for (let i = 0; i < 60; i++) {
      const a = i * 0.7;
      const from: Vec = [4 * Math.sin(i), 1.5, 4 * Math.cos(i * 1.7)];
      const dir: Vec = [Math.cos(a), -0.25, Math.sin(a)];
      const l = Math.hypot(...dir);
      const t = meet(shape, from, dir);
      let found = Infinity;
      for (let s = 0; s < 12; s += 0.001) {
        const [x, y, z] = [0, 1, 2].map((c) => from[c]! + (s * dir[c]!) / l) as [number, number, number];
        if (Math.abs(x) > 5 || Math.abs(z) > 5) break;
        if (y <= height(x, z)) {
          found = s;
          break;
        }
      }
      if (found === Infinity) expect(t).toBe(Infinity);
      else {
        hits++;
        // A grazing ray may slip past a ridge of the sampled field; it must not be far off otherwise.
        expect(Math.abs(t - found)).toBeLessThan(0.03);
      }
    }
    expect(hits).toBeGreaterThan(20);
  });

  it.each<[string, Shape, Vec, Vec]>([
    ['ball', ball, [0, 2, 0], [0, 1, 0]],
    ['box', box, [1, 0.3, 0.2], [1, 0, 0]],
    ['can mantle', can, [0, 1.5, 1], [0, 0, 1]],
    ['can lid', can, [0.2, 3, 0.1], [0, 1, 0]],
    // A cone of radius 1 and height 2 leans 26.57° from upright: normal (2, 1)/√5.
    ['cone', cone, [0.5, 1, 0], [2 / Math.sqrt(5), 1 / Math.sqrt(5), 0]],
    ['roof', roof, [0.5, 0.5, 0], [Math.SQRT1_2, Math.SQRT1_2, 0]],
    ['slope', bowl, [1, 1, 2], [-0.5 / Math.sqrt(1.3125), 1 / Math.sqrt(1.3125), -0.25 / Math.sqrt(1.3125)]],
  ])('normal of %s', (_name, shape, at, normal) => {
    const out = new Float64Array(3);
    localNormal(solidOf({ shape, material }, 0, 0), ...at, out);
    for (let c = 0; c < 3; c++) expect(out[c]).toBeCloseTo(normal[c]!, 9);
  });

  it('names the body whose size is no positive number', () => {
    expect(() => solidOf({ shape: { kind: 'sphere', radius: -1 }, material }, 7, 0)).toThrow(
      /Body 7 \(any\)/,
    );
  });
});

import { describe, expect, test } from 'vitest';
import { changes, fullChange, type Ratio } from '../../../src/readings/light/curve.ts';
import { readLight } from '../../../src/readings/light/light.ts';
import type { Pairs } from '../../../src/readings/light/pairs.ts';
import type { Regions } from '../../../src/readings/light/regions.ts';
import { sidesOf } from '../../../src/readings/light/sides.ts';
import { COOL, panels, WARM } from './surfaces.ts';

const Q: Ratio = [4, 2.5, 1.2];

/**
 * A row of regions, each the neighbour of the next, placed along (and across) the way of the light of ratio Q in units
 * of one change of it; a pair is [bright, dark].
 */
function row(
  places: readonly (number | { at: number; across: number })[],
  pairsOf: readonly (readonly [number, number])[],
) {
  const [dx, dy, dl] = changes(Q, Float64Array.from([0, 1]));
  const at = places.map((p) => (typeof p === 'number' ? { at: p, across: 0 } : p));
  const n = at.length;
  const neighbours = at.map((_, i) => [i - 1, i + 1].filter((j) => j >= 0 && j < n));
  const first = Int32Array.from({ length: n + 1 }, (_, i) => neighbours.slice(0, i).flat().length);
  const regions = {
    count: n,
    x: Float64Array.from(at, (p) => p.at * dx - p.across * dy),
    y: Float64Array.from(at, (p) => p.at * dy + p.across * dx),
    l: Float64Array.from(at, (p) => p.at * dl),
    first,
    neighbour: Int32Array.from(neighbours.flat()),
  } as unknown as Regions;
  const of = (v: Float64Array) => Float64Array.from(pairsOf, ([i, j]) => v[i] - v[j]);
  const pairs: Pairs = {
    count: pairsOf.length,
    bright: Int32Array.from(pairsOf, ([i]) => i),
    dark: Int32Array.from(pairsOf, ([, j]) => j),
    dx: of(regions.x),
    dy: of(regions.y),
    dl: of(regions.l),
    distance: new Float64Array(pairsOf.length).fill(20),
  };
  return sidesOf(regions, pairs, 45, 0.25, Q, fullChange(Q));
}

describe('what changes along a light have in common', () => {
  // The change goes from −1 to 0, 0 to 1 and −½ to ½: share of its length on the side of grey that holds more.
  test.each([
    [[-1, 0], 1],
    [[0, 1], 1],
    [[-0.5, 0.5], 0.5],
    [[-0.75, 0.25], 0.75],
  ])('from %j: %f on one side of grey', (at, share) => {
    expect(row(at, [[1, 0]]).oneSided).toBeCloseTo(share, 9);
  });

  test('borders are counted against those of all changes', () => {
    const other = { at: 0.5, across: 2 };
    // Neighbours change another way, and what follows the light lies apart: a blend.
    const apart = row(
      [0, other, 1],
      [
        [1, 0],
        [2, 0],
      ],
    );
    expect(apart.borders).toBe(0);
    // The other way round: every change of the light is a border, and half of all changes are.
    const beside = row(
      [0, 1, other],
      [
        [1, 0],
        [2, 0],
      ],
    );
    expect(beside.borders).toBeCloseTo(2, 9);
  });
});

describe.each([
  ['warm', WARM],
  ['cool', COOL],
] as const)('%s light', (_, lighting) => {
  test('seen through a deep glass is not told from a pigment', () => {
    const { view } = panels(lighting);
    const glass = [1, 0.35, 0.02];
    const rgb = view.rgb.map((v, i) => v * glass[i % 3]);
    expect(readLight(view).statement).toBe('carries');
    const { statement, evidence } = readLight({ ...view, rgb });
    expect(statement).toBe('unknown');
    expect(evidence.reason).toContain('one side of grey');
  });
});

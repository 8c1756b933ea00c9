import fc from 'fast-check';
import { expect, test } from 'vitest';
import { clusterExactly } from '../../src/numbers/clusters.ts';

/** Least weighted squared distance over every way to cut the sorted values into k runs. */
function bruteForce(values: readonly number[], weights: readonly number[], k: number): number {
  const order = values.map((_, i) => i).sort((a, b) => values[a] - values[b]);
  const cost = (from: number, to: number): number => {
    let w = 0;
    let mean = 0;
    for (let i = from; i < to; i++) w += weights[order[i]];
    for (let i = from; i < to; i++) mean += (weights[order[i]] * values[order[i]]) / w;
    let sum = 0;
    for (let i = from; i < to; i++) sum += weights[order[i]] * (values[order[i]] - mean) ** 2;
    return sum;
  };
  const best = (from: number, groups: number): number => {
    if (groups === 1) return cost(from, order.length);
    let least = Number.POSITIVE_INFINITY;
    for (let to = from + 1; to <= order.length - groups + 1; to++)
      least = Math.min(least, cost(from, to) + best(to, groups - 1));
    return least;
  };
  return best(0, k);
}

const points = fc.array(fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 1, max: 9 })), {
  minLength: 5,
  maxLength: 9,
});

test('the split is the best of all possible ones (brute force over every cut)', () => {
  fc.assert(
    fc.property(points, fc.integer({ min: 2, max: 4 }), (pairs, k) => {
      const values = pairs.map(([v]) => v / 3);
      const weights = pairs.map(([, w]) => w);
      const found = clusterExactly(values, weights, k);
      const total = bruteForce(values, weights, 1);
      const last = found[found.length - 1];
      const groups = last.means.length;
      expect(groups).toBe(Math.min(k, new Set(values).size));
      const least = bruteForce(values, weights, Math.min(groups, values.length));
      if (total > 0) expect(last.explained).toBeCloseTo(1 - least / total, 9);
      expect(last.shares.reduce((s, v) => s + v, 0)).toBeCloseTo(1, 12);
    }),
    { numRuns: 300 },
  );
});

test('an even ramp splits into equal parts that explain 1 − 1/k²', () => {
  const ramp = Array.from({ length: 1200 }, (_, i) => i / 12);
  const found = clusterExactly(ramp, null, 5);
  for (let k = 1; k <= 5; k++) {
    expect(found[k - 1].explained).toBeCloseTo(1 - 1 / (k * k), 5);
    for (const share of found[k - 1].shares) expect(share).toBeCloseTo(1 / k, 2);
  }
});

test('the means of the groups are those of the values within the borders', () => {
  const values = [3, 4, 5, 40, 42, 90, 91, 95, 4];
  const { means, shares, borders } = clusterExactly(values, null, 3)[2];
  expect([...means]).toEqual([4, 41, 92]);
  expect([...shares].map((s) => s * 9)).toEqual([4, 2, 3]);
  expect([...borders]).toEqual([40, 90]);
});

test.each([
  { name: 'nothing', values: [], weights: null, groups: 0 },
  { name: 'no weight', values: [1, 2], weights: [0, 0], groups: 0 },
  { name: 'all equal', values: [7, 7, 7], weights: null, groups: 1 },
  { name: 'two values', values: [7, 9, 7], weights: [1, 1, 2], groups: 2 },
])('$name gives $groups groups', ({ values, weights, groups }) => {
  const found = clusterExactly(values, weights, 4);
  expect(found.length).toBe(groups);
  if (groups > 0) expect(found[groups - 1].explained).toBe(1);
});

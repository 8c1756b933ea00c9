import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { multiply } from '../../src/colour/matrix.ts';
import { mongeKantorovich } from '../../src/edits/mongeKantorovich.ts';

// Pitié & Kokaram 2007; closed form by SciPy's sqrtm: oracle/monge_kantorovich.py.
const rows: { a: number[]; b: number[]; t: number[] }[] = JSON.parse(
  readFileSync(new URL('./oracle/mongeKantorovich.json', import.meta.url), 'utf8'),
);
const largest = (m: readonly number[]): number => Math.max(...m.map(Math.abs));

test.each(rows)('the map equals SciPy’s and gives the example’s covariance', ({ a, b, t }) => {
  const map = mongeKantorovich(a, b);
  for (let i = 0; i < 9; i++) expect(Math.abs(map[i] - t[i])).toBeLessThan(1e-6 * largest(t));
  // T is symmetric: T A Tᵀ = B.
  const after = multiply(multiply(map, a), map);
  for (let i = 0; i < 9; i++) expect(Math.abs(after[i] - b[i])).toBeLessThan(1e-6 * largest(b));
});

test('a direction without spread is left alone instead of blown up', () => {
  const flat = [0.01, 0, 0, 0, 0, 0, 0, 0, 0.02];
  const map = mongeKantorovich(flat, [0.04, 0, 0, 0, 0.5, 0, 0, 0, 0.02]);
  expect(map.every((v) => Number.isFinite(v) && Math.abs(v) <= 2.0001)).toBe(true);
});

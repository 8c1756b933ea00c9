import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { planeOf } from '../../src/numbers/plane.ts';
import { phaseCorrelation } from '../../src/progress/phaseCorrelation.ts';

// Shifts found by scikit-image's phase_cross_correlation: oracle/phase_correlation.py.
const rows: { roll: [number, number]; shift: [number, number] }[] = JSON.parse(
  readFileSync(new URL('./oracle/phaseCorrelation.json', import.meta.url), 'utf8'),
);
const N = 64;
const mod = (v: number): number => ((v % N) + N) % N;
const level = (x: number, y: number): number =>
  50 + 20 * Math.sin(x * 0.37 + (0.05 * y * y) / 7) + 15 * Math.cos(y * 0.23 - x * x * 0.011);

test.each(rows)(
  'a picture rolled by $roll is found there, as by scikit-image',
  ({ roll: [dx, dy], shift }) => {
    const a = planeOf(N, N, (p) => level(mod((p % N) - dx), mod(Math.floor(p / N) - dy)));
    const b = planeOf(N, N, (p) => level(p % N, Math.floor(p / N)));
    const found = phaseCorrelation(a, b, N);
    expect([found.x, found.y]).toEqual(shift.map((v) => v + 0));
  },
);

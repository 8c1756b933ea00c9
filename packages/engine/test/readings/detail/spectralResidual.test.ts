import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { planeOf } from '../../../src/numbers/plane.ts';
import { spectralResidual } from '../../../src/readings/detail/spectralResidual.ts';

// Hou & Zhang 2007, "Saliency detection: a spectral residual approach"; numbers by NumPy and SciPy: oracle/spectral_residual.py.
const oracle = JSON.parse(
  readFileSync(new URL('./oracle/spectralResidual.json', import.meta.url), 'utf8'),
).result;

test('equals an independent computation of the steps of the paper, and finds the odd block', () => {
  const picture = planeOf(64, 64, (p) => {
    const x = p % 64;
    const y = Math.floor(p / 64);
    const odd = x >= 44 && x < 50 && y >= 20 && y < 26 ? 35 : 0;
    return 40 + 10 * Math.sin(x * 0.8) + 6 * Math.cos(y * 0.45 + x * 0.1) + odd;
  });
  const { data } = spectralResidual(picture);
  let worst = 0;
  for (let p = 0; p < data.length; p++) worst = Math.max(worst, Math.abs(data[p] - oracle[p]));
  expect(worst).toBeLessThan(2e-3);
  const top = data.indexOf(Math.max(...data));
  expect(top % 64).toBeGreaterThanOrEqual(42);
  expect(top % 64).toBeLessThan(52);
  expect(Math.floor(top / 64)).toBeGreaterThanOrEqual(18);
  expect(Math.floor(top / 64)).toBeLessThan(28);
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { match } from '../../src/edits/kinds/match.ts';
import type { ColourStatistics } from '../../src/edits/step.ts';

/** Mean and covariance of OKLab colours, three numbers each. */
function statisticsOf(lab: ArrayLike<number>): ColourStatistics {
  const n = lab.length / 3;
  const mean = [0, 0, 0];
  for (let i = 0; i < lab.length; i++) mean[i % 3] += lab[i] / n;
  const covariance = new Array<number>(9).fill(0);
  for (let p = 0; p < n; p++)
    for (let i = 0; i < 9; i++) {
      const [r, c] = [Math.floor(i / 3), i % 3];
      covariance[i] += ((lab[3 * p + r] - mean[r]) * (lab[3 * p + c] - mean[c])) / n;
    }
  return { mean, covariance };
}

/** So many colours that spread in every direction: round a middle, along three axes that are turned by chance. */
const colours = fc
  .record({
    middle: fc.tuple(
      fc.double({ min: 0.2, max: 0.8, noNaN: true }),
      fc.double({ min: -0.1, max: 0.1, noNaN: true }),
      fc.double({ min: -0.1, max: 0.1, noNaN: true }),
    ),
    axes: fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 9, maxLength: 9 }),
    noise: fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 36, maxLength: 36 }),
  })
  .map(({ middle, axes, noise }) => {
    const lab = new Float64Array(noise.length);
    for (let i = 0; i < lab.length; i++) {
      const at = 3 * Math.floor(i / 3);
      const c = i % 3;
      // A spread of its own on each axis keeps the covariance from being singular.
      const own = (Math.floor(at / 3) % 4 === c ? 0.2 : -0.05) + 0.05 * noise[i];
      lab[i] =
        middle[c] + own + 0.03 * [0, 1, 2].reduce((sum, k) => sum + axes[3 * c + k] * noise[at + k], 0);
    }
    return lab;
  });

// Pitié & Kokaram 2007: after the map the colours have the example's mean and covariance.
test('colours that are matched have mean and covariance of the example', () => {
  fc.assert(
    fc.property(colours, colours, (picture, example) => {
      const data = { from: statisticsOf(picture), to: statisticsOf(example) };
      const kernel = match.kernel({ kind: 'match', on: true, strength: 1, values: { amount: 100 }, data });
      const moved = picture.slice();
      for (let at = 0; at < moved.length; at += 3) kernel.change(moved, at, 1);
      const now = statisticsOf(moved);
      for (let c = 0; c < 3; c++) expect(Math.abs(now.mean[c] - data.to.mean[c])).toBeLessThan(1e-6);
      for (let i = 0; i < 9; i++)
        expect(Math.abs(now.covariance[i] - data.to.covariance[i])).toBeLessThan(1e-6);
    }),
    { numRuns: 300 },
  );
});

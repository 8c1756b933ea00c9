import type { Census } from '../census/census.ts';
import type { ColourStatistics } from './step.ts';

/** Mean and covariance (row-major 3 × 3) in OKLab of all that a census counted, by area: what the match step needs. */
export function statisticsOf({ count, share, lab }: Census): ColourStatistics {
  const mean = [0, 0, 0];
  for (let i = 0; i < count; i++) for (let c = 0; c < 3; c++) mean[c] += share[i] * lab[3 * i + c];
  const covariance = new Array<number>(9).fill(0);
  for (let i = 0; i < count; i++)
    for (let c = 0; c < 3; c++)
      for (let d = 0; d < 3; d++)
        covariance[3 * c + d] += share[i] * (lab[3 * i + c] - mean[c]) * (lab[3 * i + d] - mean[d]);
  return { mean, covariance };
}

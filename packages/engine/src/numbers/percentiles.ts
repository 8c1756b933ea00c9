/**
 * Percentiles of weighted numbers.
 *
 * Each value stands in the middle of its own weight on the cumulated scale, with straight lines between
 * (Hazen 1914; the method "hazen" of NumPy when all weights are equal). Values without weight do not count.
 *
 * @param weights one per value, ≥ 0; all 1 when null
 * @param shares which percentiles, as shares 0…1
 * @returns one number per share; NaN without any weight
 */
export function percentiles(
  values: ArrayLike<number>,
  weights: ArrayLike<number> | null,
  shares: readonly number[],
): number[] {
  const kept: number[] = [];
  for (let i = 0; i < values.length; i++) if (!weights || weights[i] > 0) kept.push(i);
  const order = Uint32Array.from(kept).sort((a, b) => values[a] - values[b]);
  return sortedPercentiles(
    Float64Array.from(order, (i) => values[i]),
    weights && Float64Array.from(order, (i) => weights[i]),
    shares,
  );
}

/** The same of values that rise already, each with some weight. */
export function sortedPercentiles(
  values: ArrayLike<number>,
  weights: ArrayLike<number> | null,
  shares: readonly number[],
): number[] {
  const n = values.length;
  if (n === 0) return shares.map(() => Number.NaN);
  const middle = new Float64Array(n);
  let sum = 0;
  for (let j = 0; j < n; j++) {
    const w = weights ? weights[j] : 1;
    middle[j] = sum + w / 2;
    sum += w;
  }
  return shares.map((share) => {
    const at = share * sum;
    let lo = 0;
    let hi = n - 1;
    if (at <= middle[0]) return values[0];
    if (at >= middle[hi]) return values[hi];
    while (hi - lo > 1) {
      const mid = (lo + hi) >> 1;
      if (middle[mid] <= at) lo = mid;
      else hi = mid;
    }
    const t = (at - middle[lo]) / (middle[hi] - middle[lo]);
    return values[lo] + t * (values[hi] - values[lo]);
  });
}

/** Values split into groups of neighbours. */
export interface Clustering {
  /** Mean of each group, rising. */
  readonly means: Float64Array;
  /** Share of the weight in each group; sums to 1. */
  readonly shares: Float64Array;
  /** The smallest value of each group but the first. */
  readonly borders: Float64Array;
  /** Share of the variance that the groups explain, 0…1; 1 when all values are equal. */
  readonly explained: number;
}

/**
 * The best split of weighted numbers into 1, 2, … `most` groups: smallest squared distance to the groups' means.
 *
 * Exact, by dynamic programming over the sorted values (Wang & Song 2011, "Ckmeans.1d.dp: optimal k-means
 * clustering in one dimension by dynamic programming", R Journal 3/2). The best border moves only upwards with
 * the last value, so that each layer takes n log n steps by halving (Grønlund et al. 2017, "Fast exact k-means,
 * k-medians and Bregman divergence clustering in 1D"). Equal values stay together.
 *
 * @param weights one per value, ≥ 0; all 1 when null
 * @returns one clustering for each number of groups, starting with one group; fewer when there are fewer
 *   distinct values, none without weight
 */
export function clusterExactly(
  values: ArrayLike<number>,
  weights: ArrayLike<number> | null,
  most: number,
): Clustering[] {
  const sorted = distinct(values, weights);
  const n = sorted.value.length;
  if (n === 0) return [];
  const sums = prefixSums(sorted);
  const total = sums.weight[n];
  const variance = cost(sums, 0, n);

  const found: Clustering[] = [];
  const starts: Int32Array[] = [];
  let before = Float64Array.from({ length: n + 1 }, (_, end) => cost(sums, 0, end));
  for (let k = 1; k <= Math.min(most, n); k++) {
    if (k > 1) {
      const start = new Int32Array(n + 1);
      const layer = new Float64Array(n + 1);
      fillLayer(sums, before, layer, start, k, n, k - 1, n - 1);
      starts.push(start);
      before = layer;
    }
    found.push(describe(sorted.value, sums, starts, k, total, variance > 0 ? 1 - before[n] / variance : 1));
  }
  return found;
}

/** Sorted distinct values with their weights; values without weight are dropped. */
function distinct(
  values: ArrayLike<number>,
  weights: ArrayLike<number> | null,
): { value: Float64Array; weight: Float64Array } {
  const n = values.length;
  const kept: number[] = [];
  for (let i = 0; i < n; i++) if (!weights || weights[i] > 0) kept.push(i);
  const order = Uint32Array.from(kept).sort((a, b) => values[a] - values[b]);
  const value = new Float64Array(order.length);
  const weight = new Float64Array(order.length);
  let m = 0;
  for (const i of order) {
    if (m === 0 || values[i] !== value[m - 1]) value[m++] = values[i];
    weight[m - 1] += weights ? weights[i] : 1;
  }
  return { value: value.subarray(0, m), weight: weight.subarray(0, m) };
}

interface Sums {
  readonly weight: Float64Array;
  readonly first: Float64Array;
  readonly second: Float64Array;
  readonly centre: number;
}

// Moments are taken about the middle of the values: about zero they would cancel badly.
function prefixSums({ value, weight }: { value: Float64Array; weight: Float64Array }): Sums {
  const n = value.length;
  const centre = (value[0] + value[n - 1]) / 2;
  const sums = {
    weight: new Float64Array(n + 1),
    first: new Float64Array(n + 1),
    second: new Float64Array(n + 1),
    centre,
  };
  for (let i = 0; i < n; i++) {
    const v = value[i] - centre;
    sums.weight[i + 1] = sums.weight[i] + weight[i];
    sums.first[i + 1] = sums.first[i] + weight[i] * v;
    sums.second[i + 1] = sums.second[i] + weight[i] * v * v;
  }
  return sums;
}

/** Weighted squared distance of values [from, to) to their mean. */
function cost(s: Sums, from: number, to: number): number {
  const w = s.weight[to] - s.weight[from];
  if (w <= 0) return 0;
  const f = s.first[to] - s.first[from];
  return Math.max(0, s.second[to] - s.second[from] - (f * f) / w);
}

/** Best start of the last group for every number of values in [lo, hi], knowing it lies in [from, to]. */
function fillLayer(
  sums: Sums,
  before: Float64Array,
  layer: Float64Array,
  start: Int32Array,
  lo: number,
  hi: number,
  from: number,
  to: number,
): void {
  if (lo > hi) return;
  const end = (lo + hi) >> 1;
  let best = Number.POSITIVE_INFINITY;
  let at = from;
  for (let s = from; s <= Math.min(to, end - 1); s++) {
    const c = before[s] + cost(sums, s, end);
    if (c < best) {
      best = c;
      at = s;
    }
  }
  layer[end] = best;
  start[end] = at;
  fillLayer(sums, before, layer, start, lo, end - 1, from, at);
  fillLayer(sums, before, layer, start, end + 1, hi, at, to);
}

function describe(
  value: Float64Array,
  sums: Sums,
  starts: readonly Int32Array[],
  k: number,
  total: number,
  explained: number,
): Clustering {
  const means = new Float64Array(k);
  const shares = new Float64Array(k);
  const borders = new Float64Array(k - 1);
  let end = value.length;
  for (let g = k - 1; g >= 0; g--) {
    const from = g > 0 ? starts[g - 1][end] : 0;
    const w = sums.weight[end] - sums.weight[from];
    means[g] = sums.centre + (sums.first[end] - sums.first[from]) / w;
    shares[g] = w / total;
    if (g > 0) borders[g - 1] = value[from];
    end = from;
  }
  return { means, shares, borders, explained };
}

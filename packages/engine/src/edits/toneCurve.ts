/** Slope below which no part of a curve falls: values that are pressed together stay apart, and in order. */
const LEAST_SLOPE = 0.1;

/**
 * A tone curve on 0…1 through given places that rises everywhere, whatever is asked of it.
 *
 * Targets that would change places are brought to where they meet, by least squares (pool adjacent violators, Ayer et
 * al. 1955). Between the places runs a cubic whose tangents are 1 where they can be and otherwise three times the
 * flatter neighbour: inside the box of de Boor and Schwartz (1977), in which a cubic is monotone. Values beyond 0…1 stay.
 *
 * @param at rising places inside 0…1
 * @param to where each of them is to go
 */
export function toneCurve(at: readonly number[], to: readonly number[]): (value: number) => number {
  const x = Float64Array.from([0, ...at, 1]);
  const y = Float64Array.from([0, ...inOrder(at, to), 1]);
  const n = x.length;
  const slope = Float64Array.from({ length: n - 1 }, (_, k) => (y[k + 1] - y[k]) / (x[k + 1] - x[k]));
  const tangent = Float64Array.from(x, (_, k) =>
    Math.min(1, 3 * slope[Math.max(0, k - 1)], 3 * slope[Math.min(n - 2, k)]),
  );
  return (value) => {
    if (!(value > 0 && value < 1)) return value;
    let k = 0;
    while (value >= x[k + 1]) k++;
    const width = x[k + 1] - x[k];
    const t = (value - x[k]) / width;
    const rise = t * t * (3 - 2 * t);
    const bends = t * (1 - t) * ((1 - t) * tangent[k] - t * tangent[k + 1]);
    return y[k] + (y[k + 1] - y[k]) * rise + width * bends;
  };
}

/** The targets nearest to those asked for that rise at least by the least slope, from 0 to 1. */
function inOrder(at: readonly number[], to: readonly number[]): number[] {
  const pools: { sum: number; count: number }[] = [];
  for (let k = 0; k < at.length; k++) {
    let pool = { sum: to[k] - LEAST_SLOPE * at[k], count: 1 };
    for (
      let last = pools.at(-1);
      last && last.sum * pool.count > pool.sum * last.count;
      last = pools.at(-1)
    ) {
      pool = { sum: pool.sum + last.sum, count: pool.count + last.count };
      pools.pop();
    }
    pools.push(pool);
  }
  const means = pools.flatMap(({ sum, count }) => Array<number>(count).fill(sum / count));
  return means.map((mean, k) => Math.min(1 - LEAST_SLOPE, Math.max(0, mean)) + LEAST_SLOPE * at[k]);
}

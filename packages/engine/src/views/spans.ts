/** For each place of a smaller row: the first source index and the weights from there on (they sum to 1). */
export type Taps = readonly { readonly from: number; readonly weights: Float64Array }[];

/** The same in three flat lists, for loops over many places: weights of place i are those from `start[i]` to `start[i + 1]`. */
export interface FlatTaps {
  readonly from: Int32Array;
  readonly start: Int32Array;
  readonly weights: Float64Array;
}

export function flatTaps(taps: Taps): FlatTaps {
  const start = new Int32Array(taps.length + 1);
  for (const [i, { weights }] of taps.entries()) start[i + 1] = start[i] + weights.length;
  const weights = new Float64Array(start[taps.length]);
  for (const [i, tap] of taps.entries()) weights.set(tap.weights, start[i]);
  return { from: Int32Array.from(taps, ({ from }) => from), start, weights };
}

/** Area average from `source` to `size` places: each weighs what it covers of a source place. */
export function spans(source: number, size: number): Taps {
  const step = source / size;
  return Array.from({ length: size }, (_, i) => {
    const start = i * step;
    const end = Math.min(source, (i + 1) * step);
    const from = Math.min(source - 1, Math.floor(start + 1e-9));
    const to = Math.max(from + 1, Math.ceil(end - 1e-9));
    const weights = new Float64Array(to - from);
    for (let x = from; x < to; x++)
      weights[x - from] = (Math.min(end, x + 1) - Math.max(start, x)) / (end - start);
    return { from, weights };
  });
}

/** For each place of a smaller row: the first source index and the weights from there on (they sum to 1). */
export type Taps = readonly { readonly from: number; readonly weights: Float64Array }[];

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

import type { FlatTaps } from './spans.ts';

/** Weighs the columns of one row of three numbers a place, read from `start` on and written from `to` on. */
export function narrowOpaque(
  source: Float32Array,
  start: number,
  { from, start: first, weights }: FlatTaps,
  out: Float32Array,
  to: number,
): void {
  for (let x = 0, at = to; x < from.length; x++, at += 3) {
    let r = 0;
    let g = 0;
    let b = 0;
    for (let k = first[x], i = start + 3 * from[x], end = first[x + 1]; k < end; k++, i += 3) {
      const w = weights[k];
      r += w * source[i];
      g += w * source[i + 1];
      b += w * source[i + 2];
    }
    out[at] = r;
    out[at + 1] = g;
    out[at + 2] = b;
  }
}

/** The same for four numbers a place. */
export function narrowCovered(
  source: Float32Array,
  start: number,
  { from, start: first, weights }: FlatTaps,
  out: Float32Array,
  to: number,
): void {
  for (let x = 0, at = to; x < from.length; x++, at += 4) {
    let r = 0;
    let g = 0;
    let b = 0;
    let a = 0;
    for (let k = first[x], i = start + 4 * from[x], end = first[x + 1]; k < end; k++, i += 4) {
      const w = weights[k];
      r += w * source[i];
      g += w * source[i + 1];
      b += w * source[i + 2];
      a += w * source[i + 3];
    }
    out[at] = r;
    out[at + 1] = g;
    out[at + 2] = b;
    out[at + 3] = a;
  }
}

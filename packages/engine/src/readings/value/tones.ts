import { lightness, luminance } from '../../colour/cielab.ts';
import type { Field, View } from '../../views/view.ts';

/** CIELAB L* (0…100) of every place of a view. */
export function lightnessOf({ width, height, rgb }: View): Field {
  const data = new Float32Array(width * height);
  for (let p = 0; p < data.length; p++)
    data[p] = Math.max(0, lightness(luminance(rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2])));
  return { width, height, data };
}

/** How much each place of a view counts: its cover by paint, less what the artist left out. */
export function weightsOf({ width, height, alpha }: View, leftOut: Field | null): Float64Array {
  const out = new Float64Array(width * height).fill(1);
  if (alpha) for (let p = 0; p < out.length; p++) out[p] = alpha[p];
  if (!leftOut) return out;
  for (let y = 0; y < height; y++) {
    const v = Math.min(leftOut.height - 1, Math.floor(((y + 0.5) * leftOut.height) / height));
    for (let x = 0; x < width; x++) {
      const u = Math.min(leftOut.width - 1, Math.floor(((x + 0.5) * leftOut.width) / width));
      out[y * width + x] *= 1 - leftOut.data[v * leftOut.width + u];
    }
  }
  return out;
}

/** Steps of L* in a tone histogram: far finer than the eye, coarse enough to be quick. */
const TONE_STEP = 0.02;

/** How much of a picture stands at each lightness, in steps of 0.02 L*. */
export interface Tones {
  /** Middle of each step that is not empty, rising. */
  readonly L: Float64Array;
  readonly weight: Float64Array;
}

/** Collects lightness by value. */
export function tonesOf({ data }: Field, weights: Float64Array): Tones {
  const steps = Math.ceil(100 / TONE_STEP) + 1;
  const sums = new Float64Array(steps);
  let used = 0;
  for (let p = 0; p < data.length; p++) {
    if (!(weights[p] > 0)) continue;
    const at = Math.min(steps - 1, Math.round(data[p] / TONE_STEP));
    if (sums[at] === 0) used++;
    sums[at] += weights[p];
  }
  const L = new Float64Array(used);
  const weight = new Float64Array(used);
  for (let at = 0, i = 0; at < steps; at++) {
    if (sums[at] === 0) continue;
    L[i] = at * TONE_STEP;
    weight[i++] = sums[at];
  }
  return { L, weight };
}

/** Index of the group of neighbours (from 0) in which a value lies; `borders` as of `clusterExactly`. */
export function groupOf(value: number, borders: ArrayLike<number>): number {
  let g = 0;
  while (g < borders.length && value >= borders[g]) g++;
  return g;
}

/** The whole view by lightness, as the measures of this reading need it. */
export interface TonalView {
  readonly L: Field;
  /** How much each place counts, 0…1. */
  readonly weights: Float64Array;
  readonly tones: Tones;
}

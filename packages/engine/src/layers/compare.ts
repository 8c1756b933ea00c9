import { percentiles } from '../numbers/percentiles.ts';
import { makeCloseView } from '../views/average.ts';
import type { Raster } from '../views/raster.ts';
import { makeWholeView } from '../views/resample.ts';
import type { View } from '../views/view.ts';
import { seenDifference } from './seen.ts';

/**
 * Largest difference of two pictures of one size, in code values of the first; colour counts as far as it is seen,
 * that is times the smaller alpha.
 */
export function largestDifference(a: Raster, b: Raster): number {
  let most = 0;
  for (let p = 0; p < a.width * a.height; p++) most = Math.max(most, differenceAt(a, b, p));
  return most;
}

/** Share of the places that differ by more than `allowed` code values, and the rectangle that holds them all. */
export function whereDifferent(
  a: Raster,
  b: Raster,
  allowed: number,
): { share: number; left: number; top: number; right: number; bottom: number } {
  let [count, left, top, right, bottom] = [0, a.width, a.height, 0, 0];
  for (let y = 0; y < a.height; y++)
    for (let x = 0; x < a.width; x++) {
      if (differenceAt(a, b, y * a.width + x) <= allowed) continue;
      count++;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = y;
    }
  return { share: count / (a.width * a.height), left, top, right, bottom };
}

function differenceAt(a: Raster, b: Raster, p: number): number {
  const fa = a.depth === 8 ? 255 : 65535;
  const scale = fa / (b.depth === 8 ? 255 : 65535);
  const i = a.channels * p;
  const j = b.channels * p;
  const alpha = a.channels === 4 ? a.data[i + 3] : fa;
  const other = b.channels === 4 ? b.data[j + 3] * scale : fa;
  let most = Math.abs(alpha - other);
  const shown = Math.min(alpha, other) / fa;
  for (let c = 0; c < 3; c++) {
    const colour = shown * Math.abs(a.data[i + c] - b.data[j + c] * scale);
    if (colour > most) most = colour;
  }
  return most;
}

/** CIEDE2000 between two pictures of one size when one steps back: mean and 95th percentile. */
export function wholeDifference(a: Raster, b: Raster): { mean: number; p95: number } {
  const [p, q] = [a, b].map((raster) => premultiplied(makeWholeView(makeCloseView(raster))));
  const map = new Float32Array(p.length / 4);
  for (let i = 0; i < map.length; i++)
    map[i] = seenDifference(p.subarray(4 * i, 4 * i + 4), q.subarray(4 * i, 4 * i + 4));
  return {
    mean: map.reduce((sum, v) => sum + v, 0) / map.length,
    p95: percentiles(map, null, [0.95])[0],
  };
}

/** Number of places where two pictures of one size differ by at least `threshold`, in CIEDE2000. */
export function placesSeen(a: Raster, b: Raster, threshold: number): number {
  const [p, q] = [a, b].map((raster) => premultiplied(makeCloseView(raster)));
  let count = 0;
  for (let i = 0; i < p.length; i += 4)
    if (seenDifference(p.subarray(i, i + 4), q.subarray(i, i + 4)) >= threshold) count++;
  return count;
}

function premultiplied({ rgb, alpha }: View): Float64Array {
  const out = new Float64Array((4 * rgb.length) / 3);
  for (let i = 0; 4 * i < out.length; i++) {
    const a = alpha ? alpha[i] : 1;
    for (let c = 0; c < 3; c++) out[4 * i + c] = a * rgb[3 * i + c];
    out[4 * i + 3] = a;
  }
  return out;
}

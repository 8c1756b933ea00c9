import type { Raster } from '@halflight/engine';

/** Largest difference of two pictures of one size, in code values of the first; colour counts as far as it is seen. */
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
  const [fa, fb] = [2 ** a.depth - 1, 2 ** b.depth - 1];
  const [i, j] = [a.channels * p, b.channels * p];
  const alpha = a.channels === 4 ? a.data[i + 3] : fa;
  const other = b.channels === 4 ? (b.data[j + 3] * fa) / fb : fa;
  let most = Math.abs(alpha - other);
  const shown = Math.min(alpha, other) / fa;
  for (let c = 0; c < 3; c++)
    most = Math.max(most, shown * Math.abs(a.data[i + c] - (b.data[j + c] * fa) / fb));
  return most;
}

/**
 * Mean over the square of radius `r` around each place, cut at the borders; cost does not depend on `r`.
 *
 * @param plane row-major, `width × height`
 * @param out receives the means; may be `plane` itself
 */
export function boxMean(
  plane: Float32Array,
  width: number,
  height: number,
  r: number,
  out: Float32Array,
): void {
  const rows = new Float64Array(width * height);
  for (let y = 0; y < height; y++) slide(plane, rows, y * width, width, r);
  // Columns side by side, so that memory is read in order.
  const sums = new Float64Array(width);
  for (let y = 0; y < Math.min(r, height); y++)
    for (let x = 0; x < width; x++) sums[x] += rows[y * width + x];
  for (let y = 0; y < height; y++) {
    const enter = y + r;
    const leave = y - r - 1;
    if (enter < height) for (let x = 0; x < width; x++) sums[x] += rows[enter * width + x];
    if (leave >= 0) for (let x = 0; x < width; x++) sums[x] -= rows[leave * width + x];
    const count = Math.min(height - 1, y + r) - Math.max(0, y - r) + 1;
    for (let x = 0; x < width; x++) out[y * width + x] = sums[x] / count;
  }
}

/** Running mean along one line of `n` places. */
function slide(from: Float32Array, to: Float64Array, start: number, n: number, r: number): void {
  let sum = 0;
  for (let i = 0; i < Math.min(r, n); i++) sum += from[start + i];
  for (let i = 0; i < n; i++) {
    if (i + r < n) sum += from[start + (i + r)];
    if (i - r - 1 >= 0) sum -= from[start + (i - r - 1)];
    to[start + i] = sum / (Math.min(n - 1, i + r) - Math.max(0, i - r) + 1);
  }
}

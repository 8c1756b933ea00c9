/** Looking at colours the painter's way: how different two are, and what a place looks like as a whole. */
import type { Guide } from './guide.ts';

/** Square root of light, which is near enough to even steps for the eye; negative light counts as none. */
export const root = (v: number) => Math.sqrt(Math.max(0, v));

/** Difference of two colours after a square root, which is near enough to what the eye sees. */
export function difference(a: Float32Array, i: number, b: Float32Array, j: number): number {
  const dr = root(a[i]!) - root(b[j]!);
  const dg = root(a[i + 1]!) - root(b[j + 1]!);
  const db = root(a[i + 2]!) - root(b[j + 2]!);
  return Math.sqrt(dr * dr + dg * dg + db * db);
}

/** Writes the mean colour of the region within a square to `rgb`; of the fallback pixel where the region isn't there. */
export function around(
  guide: Guide,
  x: number,
  y: number,
  spread: number,
  r: number,
  fallback: number,
  rgb: Float64Array,
): void {
  const { width, height, region, colour } = guide;
  const cx = Math.floor(x);
  const cy = Math.floor(y);
  const jump = Math.max(1, Math.floor(spread / 2));
  let n = 0;
  rgb[0] = 0;
  rgb[1] = 0;
  rgb[2] = 0;
  for (let dy = -spread; dy <= spread; dy += jump) {
    const yy = cy + dy;
    if (yy < 0 || yy >= height) continue;
    for (let dx = -spread; dx <= spread; dx += jump) {
      const xx = cx + dx;
      if (xx < 0 || xx >= width) continue;
      const i = yy * width + xx;
      if (region[i] !== r) continue;
      rgb[0] += colour[i * 3]!;
      rgb[1] += colour[i * 3 + 1]!;
      rgb[2] += colour[i * 3 + 2]!;
      n++;
    }
  }
  if (n === 0) {
    rgb[0] = colour[fallback * 3]!;
    rgb[1] = colour[fallback * 3 + 1]!;
    rgb[2] = colour[fallback * 3 + 2]!;
    return;
  }
  rgb[0] /= n;
  rgb[1] /= n;
  rgb[2] /= n;
}

import type { Matrix } from '../colour/matrix.ts';
import { linearTables } from '../colour/transfer.ts';
import type { Raster } from './raster.ts';
import { rowAdder } from './rows.ts';
import { type FlatTaps, flatTaps, spans } from './spans.ts';
import type { View } from './view.ts';

/** Largest number of pixels in the close view. */
export const CLOSE_PIXELS = 1_500_000;

/**
 * The close view: every place is the mean of the pixels it covers, in linear light, weighted by alpha.
 * A picture that is small enough is only made linear.
 */
export function makeCloseView(raster: Raster, limit = CLOSE_PIXELS): View {
  const { width: w, height: h, channels } = raster;
  const scale = Math.min(1, Math.sqrt(limit / (w * h)));
  const width = Math.max(1, Math.floor(w * scale));
  const height = Math.max(1, Math.floor(h * scale));
  const rgb = new Float32Array(3 * width * height);
  const alpha = channels === 4 ? new Float32Array(width * height) : null;
  const m = raster.space.toSrgb;
  const columns = flatTaps(spans(w, width));
  const rows = spans(h, height);
  // Rows are joined first, at full width: the loop over all pixels has no borders in it that way.
  const band = new Float64Array(channels * w);
  const add = rowAdder(raster, linearTables(raster.space, raster.depth));

  for (let y = 0; y < height; y++) {
    band.fill(0);
    add(band, rows[y].from, rows[y].weights);
    if (alpha) joinCovered(rgb, alpha, y * width, band, columns, m);
    else joinOpaque(rgb, y * width, band, columns, m);
  }
  return { width, height, rgb, alpha, scale: width / w };
}

/** Weighs the columns of a band and writes a row of the view, from place `p` on. */
function joinOpaque(
  rgb: Float32Array,
  p: number,
  band: Float64Array,
  { from, start, weights }: FlatTaps,
  m: Matrix,
): void {
  for (let x = 0, o = 3 * p; x < from.length; x++, o += 3) {
    let r = 0;
    let g = 0;
    let b = 0;
    for (let k = start[x], i = 3 * from[x], end = start[x + 1]; k < end; k++, i += 3) {
      const weight = weights[k];
      r += weight * band[i];
      g += weight * band[i + 1];
      b += weight * band[i + 2];
    }
    rgb[o] = m[0] * r + m[1] * g + m[2] * b;
    rgb[o + 1] = m[3] * r + m[4] * g + m[5] * b;
    rgb[o + 2] = m[6] * r + m[7] * g + m[8] * b;
  }
}

/** The same with alpha: colours are means of what is opaque. */
function joinCovered(
  rgb: Float32Array,
  alpha: Float32Array,
  p: number,
  band: Float64Array,
  { from, start, weights }: FlatTaps,
  m: Matrix,
): void {
  for (let x = 0, o = 3 * p; x < from.length; x++, o += 3) {
    let r = 0;
    let g = 0;
    let b = 0;
    let a = 0;
    for (let k = start[x], i = 4 * from[x], end = start[x + 1]; k < end; k++, i += 4) {
      const weight = weights[k];
      r += weight * band[i];
      g += weight * band[i + 1];
      b += weight * band[i + 2];
      a += weight * band[i + 3];
    }
    alpha[p + x] = a;
    if (a <= 0) continue;
    r /= a;
    g /= a;
    b /= a;
    rgb[o] = m[0] * r + m[1] * g + m[2] * b;
    rgb[o + 1] = m[3] * r + m[4] * g + m[5] * b;
    rgb[o + 2] = m[6] * r + m[7] * g + m[8] * b;
  }
}

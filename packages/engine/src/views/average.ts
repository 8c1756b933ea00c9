import { linearTables } from '../colour/transfer.ts';
import type { Raster } from './raster.ts';
import { rowAdder } from './rows.ts';
import { spans } from './spans.ts';
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
  const columns = spans(w, width);
  const rows = spans(h, height);
  // Rows are joined first, at full width: the loop over all pixels has no borders in it that way.
  const band = new Float64Array(channels * w);
  const add = rowAdder(raster, linearTables(raster.space, raster.depth));
  const sum = new Float64Array(4);

  for (let y = 0, p = 0; y < height; y++) {
    band.fill(0);
    add(band, rows[y].from, rows[y].weights);
    for (let x = 0; x < width; x++, p++) {
      sumSpan(sum, band, channels, columns[x].from, columns[x].weights);
      let weight = 1;
      if (alpha) {
        alpha[p] = sum[3];
        weight = sum[3];
        if (weight <= 0) continue;
      }
      const r = sum[0] / weight;
      const g = sum[1] / weight;
      const b = sum[2] / weight;
      rgb[3 * p] = m[0] * r + m[1] * g + m[2] * b;
      rgb[3 * p + 1] = m[3] * r + m[4] * g + m[5] * b;
      rgb[3 * p + 2] = m[6] * r + m[7] * g + m[8] * b;
    }
  }
  return { width, height, rgb, alpha, scale: width / w };
}

/** Weighted sum of neighbouring places of a band. */
function sumSpan(
  sum: Float64Array,
  band: Float64Array,
  channels: number,
  from: number,
  weights: Float64Array,
): void {
  let r = 0;
  let g = 0;
  let b = 0;
  let a = 0;
  for (let k = 0, i = channels * from; k < weights.length; k++, i += channels) {
    const weight = weights[k];
    r += weight * band[i];
    g += weight * band[i + 1];
    b += weight * band[i + 2];
    if (channels === 4) a += weight * band[i + 3];
  }
  sum[0] = r;
  sum[1] = g;
  sum[2] = b;
  sum[3] = a;
}

import type { View } from './view.ts';

/** A smaller copy of a view by area average, weighted by alpha; the view itself when it is small enough. */
export function reduceView(view: View, longSide: number): View {
  const long = Math.max(view.width, view.height);
  if (long <= longSide) return view;
  const width = Math.max(1, Math.round((view.width * longSide) / long));
  const height = Math.max(1, Math.round((view.height * longSide) / long));
  return resample(view, width, height, spans(view.width, width), spans(view.height, height));
}

/** The picture as it stands when one steps back: Gaussian blur with σ = 1/80 of the long side, at most `longSide` px. */
export function makeWholeView(close: View, longSide = 160): View {
  // The blur is wide, so that it can be made on a copy of 4 samples per σ; the copy's own box (1/12 px²) and the
  // box of the last step are taken off the variance.
  const base = reduceView(close, 320);
  const long = Math.max(base.width, base.height);
  const out = Math.min(longSide, long);
  const width = Math.max(1, Math.round((base.width * out) / long));
  const height = Math.max(1, Math.round((base.height * out) / long));
  const sigma = Math.sqrt(Math.max(0.01, (long / 80) ** 2 - 1 / 12));
  return resample(
    base,
    width,
    height,
    gaussians(base.width, width, sigma),
    gaussians(base.height, height, sigma),
  );
}

/** For each place of the result: the first source index and the weights from there on (they sum to 1). */
type Taps = readonly { readonly from: number; readonly weights: Float64Array }[];

function spans(source: number, size: number): Taps {
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

function gaussians(source: number, size: number, sigma: number): Taps {
  const step = source / size;
  return Array.from({ length: size }, (_, i) => {
    const centre = (i + 0.5) * step - 0.5;
    const from = Math.max(0, Math.ceil(centre - 3 * sigma));
    const to = Math.min(source - 1, Math.floor(centre + 3 * sigma));
    const weights = new Float64Array(to - from + 1);
    let sum = 0;
    for (let x = from; x <= to; x++) {
      weights[x - from] = Math.exp(-0.5 * ((x - centre) / sigma) ** 2);
      sum += weights[x - from];
    }
    return { from, weights: weights.map((w) => w / sum) };
  });
}

function resample(view: View, width: number, height: number, columns: Taps, rows: Taps): View {
  const { rgb, alpha } = view;
  const planes = alpha ? 4 : 3;
  const narrow = new Float64Array(width * view.height * planes);
  for (let y = 0; y < view.height; y++) {
    for (let x = 0; x < width; x++) {
      const { from, weights } = columns[x];
      const at = planes * (y * width + x);
      for (let k = 0; k < weights.length; k++) {
        const p = y * view.width + from + k;
        const w = alpha ? weights[k] * alpha[p] : weights[k];
        narrow[at] += w * rgb[3 * p];
        narrow[at + 1] += w * rgb[3 * p + 1];
        narrow[at + 2] += w * rgb[3 * p + 2];
        if (alpha) narrow[at + 3] += w;
      }
    }
  }
  const out = new Float32Array(3 * width * height);
  const cover = alpha ? new Float32Array(width * height) : null;
  const sum = new Float64Array(planes);
  for (let y = 0; y < height; y++) {
    const { from, weights } = rows[y];
    for (let x = 0; x < width; x++) {
      sum.fill(0);
      for (let k = 0; k < weights.length; k++) {
        const at = planes * ((from + k) * width + x);
        for (let c = 0; c < planes; c++) sum[c] += weights[k] * narrow[at + c];
      }
      const p = y * width + x;
      const weight = cover ? sum[3] : 1;
      if (cover) cover[p] = weight;
      if (weight > 0) for (let c = 0; c < 3; c++) out[3 * p + c] = sum[c] / weight;
    }
  }
  return { width, height, rgb: out, alpha: cover, scale: (view.scale * width) / view.width };
}

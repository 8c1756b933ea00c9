import { flatTaps, spans, type Taps } from './spans.ts';
import type { View } from './view.ts';
import { narrowCovered, narrowOpaque } from './weigh.ts';

/** Long side of the middle view. */
export const MIDDLE_LONG_SIDE = 900;

/** A smaller copy of a view by area average, weighted by alpha; the view itself when it is small enough. */
export function reduceView(view: View, longSide: number): View {
  const long = Math.max(view.width, view.height);
  if (long <= longSide) return view;
  const width = Math.max(1, Math.round((view.width * longSide) / long));
  const height = Math.max(1, Math.round((view.height * longSide) / long));
  return resample(view, width, height, spans(view.width, width), spans(view.height, height));
}

/** The picture as it stands when one steps back: Gaussian blur with σ = 1/80 of the long side, at most `longSide` px. */
export function makeWholeView(view: View, longSide = 160): View {
  // The blur is wide, so that it can be made on a copy of 4 samples per σ; the copy's own box (1/12 px²) and the
  // box of the last step are taken off the variance.
  const base = reduceView(view, 320);
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

/** Weighs columns, then rows; colours are carried times alpha and divided by it at the end. */
function resample(view: View, width: number, height: number, columns: Taps, rows: Taps): View {
  const planes = view.alpha ? 4 : 3;
  const source = view.alpha ? premultiplied(view, view.alpha) : view.rgb;
  const line = new Float64Array(planes * width);
  const narrow = new Float32Array(planes * width * view.height);
  const flat = flatTaps(columns);
  const narrowRow = planes === 4 ? narrowCovered : narrowOpaque;
  for (let y = 0; y < view.height; y++)
    narrowRow(source, planes * y * view.width, flat, narrow, y * line.length);
  const rgb = new Float32Array(3 * width * height);
  const alpha = view.alpha ? new Float32Array(width * height) : null;
  for (let y = 0; y < height; y++) {
    const { from, weights } = rows[y];
    line.fill(0);
    for (let k = 0; k < weights.length; k++) {
      const at = (from + k) * line.length;
      const w = weights[k];
      for (let i = 0; i < line.length; i++) line[i] += w * narrow[at + i];
    }
    if (alpha) divide(line, y * width, rgb, alpha);
    else rgb.set(line, 3 * y * width);
  }
  return { width, height, rgb, alpha, scale: (view.scale * width) / view.width };
}

function premultiplied({ rgb }: View, alpha: Float32Array): Float32Array {
  const out = new Float32Array(4 * alpha.length);
  for (let p = 0; p < alpha.length; p++) {
    for (let c = 0; c < 3; c++) out[4 * p + c] = alpha[p] * rgb[3 * p + c];
    out[4 * p + 3] = alpha[p];
  }
  return out;
}

function divide(line: Float64Array, start: number, rgb: Float32Array, alpha: Float32Array): void {
  for (let x = 0, p = start; 4 * x < line.length; x++, p++) {
    const weight = line[4 * x + 3];
    alpha[p] = weight;
    if (weight > 0) for (let c = 0; c < 3; c++) rgb[3 * p + c] = line[4 * x + c] / weight;
  }
}

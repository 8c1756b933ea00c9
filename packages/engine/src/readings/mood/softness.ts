import type { Field, View } from '../../views/view.ts';
import { smallLightness } from './smallLightness.ts';

/** Long side of the copy on which edges are measured: a fixed share of the picture whatever its size. */
export const SOFTNESS_LONG_SIDE = 320;
const SMALLEST = 256;
/** The two blurs between which an edge is compared, px of that copy. */
const FINE = 0.8;
const COARSE = 1.8;
/** An edge rises by at least this many L* per pixel after the coarse blur: below it is grain and gradient. */
const EDGE = 0.7;
/** Edges softer than this many px are passages, all alike. */
const SOFTEST = 16;
const STEPS = 800;
/** With fewer edge points than this the picture has no edges to speak of. */
const FEWEST = 40;

/**
 * How soft the picture's edges are: the median width of its edges, each by its contrast, as the standard deviation
 * of the blur that would make it from a hard edge, in thousandths of the long side. Null without any edge.
 *
 * An edge of blur s shows gradients in the ratio √((s² + b²)/(s² + a²)) after blurs a and b (Zhuo & Sim 2011,
 * "Defocus map estimation from a single image", Pattern Recognition 44/9, whose s we solve for). The copy's own
 * pixels blur by about 2 ‰: that is how hard an edge reads at most; beyond 15 ‰ it only means very soft.
 */
export function edgeSoftness(close: View, leftOut: Field | null): number | null {
  const { L, cover } = smallLightness(close, SOFTNESS_LONG_SIDE, leftOut);
  const { width, height } = L;
  // A smaller picture has no room for the difference between a hard and a soft edge.
  if (Math.max(width, height) < SMALLEST || Math.min(width, height) < 24) return null;
  const fine = blurred(L.data, width, height, FINE);
  // A blur after a blur: the variances add.
  const coarse = blurred(fine, width, height, Math.sqrt(COARSE ** 2 - FINE ** 2));
  const steep = slopes(coarse, width, height);
  const contrast = new Float64Array(STEPS);
  let edges = 0;
  for (let y = 2; y < height - 2; y++)
    for (let x = 2; x < width - 2; x++) {
      const p = y * width + x;
      const g = steep[p];
      if (g < EDGE || cover[p] < 0.5) continue;
      // Only the crest of an edge: the slope falls to both sides along its own direction.
      const across = Math.abs(coarse[p + 1] - coarse[p - 1]);
      const down = Math.abs(coarse[p + width] - coarse[p - width]);
      const step = across > down ? 1 : width;
      if (steep[p - step] > g || steep[p + step] >= g) continue;
      const ratio = slopeAt(fine, p, width) / g;
      const s2 = (COARSE ** 2 - ratio ** 2 * FINE ** 2) / (ratio ** 2 - 1);
      const s = ratio <= 1 ? SOFTEST : Math.min(SOFTEST, Math.sqrt(Math.max(0, s2)));
      contrast[Math.min(STEPS - 1, Math.floor((s / SOFTEST) * STEPS))] += g * Math.sqrt(s * s + COARSE ** 2);
      edges++;
    }
  if (edges < FEWEST) return null;
  return (1000 * SOFTEST * middleOf(contrast)) / Math.max(width, height);
}

/** Where half of the weight is reached, as a share of all steps. */
function middleOf(weight: Float64Array): number {
  const half = weight.reduce((s, v) => s + v, 0) / 2;
  let sum = 0;
  let i = 0;
  while (i < weight.length - 1 && sum + weight[i] < half) sum += weight[i++];
  return (i + (half - sum) / (weight[i] || 1)) / weight.length;
}

function slopes(data: Float32Array, width: number, height: number): Float32Array {
  const out = new Float32Array(data.length);
  for (let y = 1; y < height - 1; y++)
    for (let x = 1; x < width - 1; x++) out[y * width + x] = slopeAt(data, y * width + x, width);
  return out;
}

function slopeAt(data: Float32Array, p: number, width: number): number {
  const u = data[p + 1] - data[p - 1];
  const v = data[p + width] - data[p - width];
  return Math.sqrt(u * u + v * v) / 2;
}

/** Gaussian blur cut at 3 σ; borders are held. */
function blurred(data: Float32Array, width: number, height: number, sigma: number): Float32Array {
  const r = Math.ceil(3 * sigma);
  const half = Float64Array.from({ length: r + 1 }, (_, k) => Math.exp(-0.5 * (k / sigma) ** 2));
  const sum = 2 * half.reduce((s, v) => s + v, 0) - half[0];
  for (let k = 0; k <= r; k++) half[k] /= sum;
  const rows = new Float32Array(data.length);
  const out = new Float32Array(data.length);
  const line = new Float32Array(width + 2 * r);
  for (let y = 0; y < height; y++) {
    const at = y * width;
    line.fill(data[at], 0, r);
    line.set(data.subarray(at, at + width), r);
    line.fill(data[at + width - 1], r + width);
    for (let x = 0, c = r; x < width; x++, c++) {
      let s = half[0] * line[c];
      for (let k = 1; k <= r; k++) s += half[k] * (line[c - k] + line[c + k]);
      rows[at + x] = s;
    }
  }
  for (let y = 0; y < height; y++) {
    const at = y * width;
    for (let x = 0; x < width; x++) out[at + x] = half[0] * rows[at + x];
    for (let k = 1; k <= r; k++) {
      const above = width * Math.max(0, y - k);
      const below = width * Math.min(height - 1, y + k);
      const weight = half[k];
      for (let x = 0; x < width; x++) out[at + x] += weight * (rows[above + x] + rows[below + x]);
    }
  }
  return out;
}

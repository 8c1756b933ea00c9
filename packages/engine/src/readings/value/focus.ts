import { fillOutlines } from '../../areas/outline.ts';
import { percentiles } from '../../numbers/percentiles.ts';
import type { TonalView } from './tones.ts';
import type { FocusContrast } from './types.ts';

/** The percentile of slopes that stands for the strongest edges of a part. */
const STRONGEST = 0.95;
/** Width of the rim along the border in pixels of the whole view: its blur has a standard deviation of 2. */
const RIM = 3;

/**
 * How the focus stands out in value on the whole view; null when the outlines hold next to nothing or everything.
 *
 * @param outlines in shares of width and height
 */
export function focusContrast(
  { L, weights }: TonalView,
  outlines: readonly (readonly number[])[],
): FocusContrast | null {
  const { width, height, data } = L;
  const cover = fillOutlines(outlines, width, height).data;
  let area = 0;
  for (let p = 0; p < cover.length; p++) area += weights[p] * Math.min(1, cover[p]);
  const total = weights.reduce((s, w) => s + w, 0);
  if (area < 4 || area > 0.9 * total) return null;

  const masks = focusMasks(cover, width, height, area);
  const mean = (counts: (p: number) => boolean): number | null => {
    let sum = 0;
    let of = 0;
    for (let p = 0; p < data.length; p++) {
      if (!counts(p)) continue;
      sum += weights[p] * data[p];
      of += weights[p];
    }
    return of > 0 ? sum / of : null;
  };
  const inside = mean((p) => masks.inside[p] > 0) ?? mean((p) => cover[p] > 0.5);
  const around = mean((p) => masks.around[p] > 0);
  if (inside === null || around === null) return null;

  const slope = slopes(data, width, height);
  const focusWeights = weights.map((w, p) => (masks.border[p] > 0 ? w : 0));
  const restWeights = weights.map((w, p) => (masks.border[p] > 0 ? 0 : w));
  const [strong] = percentiles(slope, focusWeights, [STRONGEST]);
  const [rest] = percentiles(slope, restWeights, [STRONGEST]);
  return {
    inside,
    around,
    difference: Math.abs(inside - around),
    edges: Number.isNaN(rest) ? 1 : strong / Math.max(rest, 0.05),
  };
}

/**
 * The places of a focus and of the ring around it, 1 = there, and the focus with its rim.
 *
 * A ring of the focus' own area around a disc of radius r is 0.41 r wide. Along the border the whole view mixes inside
 * and outside: a rim of its blur's width is left out on either side.
 */
export function focusMasks(
  cover: Float32Array,
  width: number,
  height: number,
  area = cover.reduce((sum, c) => sum + Math.min(1, c), 0),
): { readonly inside: Uint8Array; readonly around: Uint8Array; readonly border: Uint8Array } {
  const reach = Math.max(2, Math.round(0.41 * Math.sqrt(area / Math.PI)));
  const border = grown(cover, width, height, RIM);
  const ring = grown(cover, width, height, RIM + reach);
  const shore = grown(
    cover.map((c) => 1 - c),
    width,
    height,
    RIM,
  );
  return {
    inside: Uint8Array.from(cover, (c, p) => (c > 0.5 && shore[p] === 0 ? 1 : 0)),
    around: ring.map((r, p) => (r > 0 && border[p] === 0 ? 1 : 0)),
    border,
  };
}

/** Places within `reach` pixels (in a square) of a covered one. */
function grown(cover: Float32Array, width: number, height: number, reach: number): Uint8Array {
  const rows = new Uint8Array(cover.length);
  const out = new Uint8Array(cover.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (!(cover[y * width + x] > 0.5)) continue;
      const from = y * width + Math.max(0, x - reach);
      rows.fill(1, from, y * width + Math.min(width, x + reach + 1));
    }
  for (let y = 0; y < height; y++)
    for (let k = Math.max(0, y - reach); k < Math.min(height, y + reach + 1); k++)
      for (let x = 0; x < width; x++) if (rows[k * width + x]) out[y * width + x] = 1;
  return out;
}

function slopes(data: Float32Array, width: number, height: number): Float32Array {
  const out = new Float32Array(data.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const p = y * width + x;
      const u = data[x < width - 1 ? p + 1 : p] - data[x > 0 ? p - 1 : p];
      const v = data[y < height - 1 ? p + width : p] - data[y > 0 ? p - width : p];
      out[p] = Math.hypot(u, v);
    }
  return out;
}

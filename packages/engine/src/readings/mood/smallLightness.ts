import { lightness, luminance } from '../../colour/cielab.ts';
import type { Field, View } from '../../views/view.ts';

/** L* of a small copy of a view, averaged by area in linear light, and how much of each place counts, 0…1. */
export interface SmallLightness {
  readonly L: Field;
  readonly cover: Float32Array;
}

/**
 * Averages the luminance of a view down to a long side of at most `longSide`. Of a view four times as large or more
 * every second pixel of every second row is enough: reading memory is what takes the time here.
 */
export function smallLightness(view: View, longSide: number, leftOut: Field | null): SmallLightness {
  const { rgb } = view;
  const skip = Math.max(view.width, view.height) >= 4 * longSide ? 2 : 1;
  const w = Math.max(1, Math.floor(view.width / skip));
  const h = Math.max(1, Math.floor(view.height / skip));
  const scale = Math.min(1, longSide / Math.max(w, h));
  const width = Math.max(1, Math.round(w * scale));
  const height = Math.max(1, Math.round(h * scale));
  const counts = countsOf(view, leftOut);
  const light = new Float64Array(width * height);
  const cover = new Float64Array(width * height);
  const rowLight = new Float64Array(width);
  const rowCover = new Float64Array(width);
  const stepX = w / width;
  const stepY = h / height;

  for (let y = 0; y < h; y++) {
    let p = skip * y * view.width;
    let x = 0;
    let lightOver = 0;
    let coverOver = 0;
    for (let c = 0; c < width; c++) {
      const end = c === width - 1 ? w : (c + 1) * stepX;
      const whole = Math.floor(end + 1e-9);
      let sum = lightOver;
      let covered = coverOver;
      lightOver = 0;
      coverOver = 0;
      for (; x < whole; x++, p += skip) {
        const weight = counts ? counts[p] : 1;
        sum += weight * luminance(rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2]);
        covered += weight;
      }
      // A pixel across the border of two places gives each its part.
      const part = end - whole;
      if (part > 1e-9) {
        const weight = counts ? counts[p] : 1;
        const v = weight * luminance(rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2]);
        sum += part * v;
        covered += part * weight;
        lightOver = (1 - part) * v;
        coverOver = (1 - part) * weight;
        x++;
        p += skip;
      }
      rowLight[c] = sum;
      rowCover[c] = covered;
    }
    const j = Math.min(height - 1, Math.floor(y / stepY + 1e-9));
    const first = j === height - 1 ? 1 : Math.min(1, Math.max(0, (j + 1) * stepY - y));
    addRow(light, rowLight, j, first);
    addRow(cover, rowCover, j, first);
    if (first < 1) {
      addRow(light, rowLight, j + 1, 1 - first);
      addRow(cover, rowCover, j + 1, 1 - first);
    }
  }

  const full = stepX * stepY;
  const data = new Float32Array(width * height);
  const share = new Float32Array(width * height);
  for (let p = 0; p < data.length; p++) {
    share[p] = cover[p] / full;
    if (cover[p] > 0) data[p] = Math.max(0, lightness(light[p] / cover[p]));
  }
  return { L: { width, height, data }, cover: share };
}

/** How much each pixel counts, or null when all count in full. */
function countsOf({ alpha }: View, leftOut: Field | null): Float32Array | null {
  if (!leftOut) return alpha;
  return leftOut.data.map((v, p) => (1 - v) * (alpha ? alpha[p] : 1));
}

function addRow(into: Float64Array, row: Float64Array, j: number, weight: number): void {
  const at = j * row.length;
  for (let c = 0; c < row.length; c++) into[at + c] += weight * row[c];
}

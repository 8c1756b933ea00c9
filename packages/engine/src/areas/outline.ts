import type { Field } from '../views/view.ts';

/**
 * Cover of closed outlines over a grid, 0…1: four lines a row, exact along the row; even–odd filling.
 *
 * @param outlines x and y in turn, in shares of width and height
 */
export function fillOutlines(outlines: readonly (readonly number[])[], width: number, height: number): Field {
  const data = new Float32Array(width * height);
  const lines = 4;
  const crossings: number[] = [];
  for (let y = 0; y < height; y++)
    for (let s = 0; s < lines; s++) {
      const level = y + (s + 0.5) / lines;
      crossings.length = 0;
      for (const outline of outlines) cross(outline, width, height, level, crossings);
      crossings.sort((a, b) => a - b);
      for (let k = 0; k + 1 < crossings.length; k += 2)
        fillSpan(data, y * width, width, crossings[k], crossings[k + 1], 1 / lines);
    }
  return { width, height, data };
}

/** Collects where the edges of an outline cross the line at `level`. */
function cross(
  outline: readonly number[],
  width: number,
  height: number,
  level: number,
  out: number[],
): void {
  const n = outline.length >> 1;
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    const y0 = outline[2 * i + 1] * height;
    const y1 = outline[2 * j + 1] * height;
    if (y0 <= level === y1 <= level) continue;
    const x0 = outline[2 * i] * width;
    const x1 = outline[2 * j] * width;
    out.push(x0 + ((level - y0) / (y1 - y0)) * (x1 - x0));
  }
}

function fillSpan(
  data: Float32Array,
  base: number,
  width: number,
  from: number,
  to: number,
  weight: number,
): void {
  const a = Math.max(0, from);
  const b = Math.min(width, to);
  for (let x = Math.floor(a); x < b; x++) data[base + x] += weight * (Math.min(b, x + 1) - Math.max(a, x));
}

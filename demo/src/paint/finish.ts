/** From paint to code values: the slight relief of the paint, then eight bits with a dither. */
import { linearToSrgb } from '@halflight/engine';
import { hash01 } from '../scene/index.ts';
import type { Canvas } from './canvas.ts';

const TABLE = 4096;
let codes: Float32Array | null = null;

/** sRGB code 0…255 (with fraction) by the square root of linear light 0…1. */
function codeTable(): Float32Array {
  codes ??= Float32Array.from(
    { length: TABLE + 2 },
    (_, i) => 255 * linearToSrgb(Math.min(1, (i / TABLE) ** 2)),
  );
  return codes;
}

/**
 * 8-bit sRGB of the rows `from` up to, without, `to` of the picture, which the canvas must hold.
 *
 * `relief` is the deviation of light where the paint's surface tilts. The dither is even over one step, so that the mean is kept.
 */
export function finish(canvas: Canvas, from: number, to: number, relief: number): Uint8Array {
  const { width, rgb, firstRow, height } = canvas;
  const table = codeTable();
  const out = new Uint8Array(width * (to - from) * 3);
  for (let y = from; y < to; y++) {
    const row = y - firstRow;
    const above = Math.max(0, row - 1) * width;
    const below = Math.min(height - 1, row + 1) * width;
    for (let x = 0; x < width; x++) {
      const i = row * width + x;
      // Light from the upper left.
      const dx =
        canvas.relief[row * width + Math.min(width - 1, x + 1)]! -
        canvas.relief[row * width + Math.max(0, x - 1)]!;
      const dy = canvas.relief[below + x]! - canvas.relief[above + x]!;
      const f = 1 + relief * Math.max(-0.6, Math.min(0.6, 0.5 * dx + dy));
      for (let c = 0; c < 3; c++) {
        const v = Math.min(1, Math.max(0, rgb[i * 3 + c]! * f));
        const t = Math.sqrt(v) * TABLE;
        const k = Math.floor(t);
        const code = table[k]! + (table[k + 1]! - table[k]!) * (t - k);
        const dither = hash01(x, y, c, 5) - 0.5;
        out[((y - from) * width + x) * 3 + c] = Math.max(0, Math.min(255, Math.round(code + dither)));
      }
    }
  }
  return out;
}

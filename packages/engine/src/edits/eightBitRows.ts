import type { Raster } from '../views/raster.ts';
import { ditherAt } from './dither.ts';

/** A pixel that can be edited. */
export interface PixelEdit {
  /** Edits pixel `i` (place of its first sample), its code values to `code`, not yet rounded; false when it keeps its own. */
  edit(i: number): boolean;
  readonly code: Float64Array;
}

/** Which areas cover a pixel. */
export interface Coverage {
  readonly areas: number;
  /** Makes the covers of a row ready. */
  row(y: number): void;
  /** Makes the covers of a place in that row ready; bit by bit which areas cover it, −1 where one does so in part. */
  at(x: number): number;
}

/** With more areas a colour and what covers it no longer fit one key. */
export const MOST_AREAS = 5;
/** Most colours that are remembered, as a power of two: 16 bytes each, of which only those that occur take memory. */
const MOST_BITS = 20;
const LEAST_BITS = 12;
/** Levels of the dither, and its order over 8 × 8 places as whole numbers 0…63. */
const LEVELS = 64;
const ORDER = Uint8Array.from({ length: 64 }, (_, k) => LEVELS * (ditherAt(k & 7, k >> 3) + 0.5));

/**
 * Rows from 8 bit to 8 bit with each colour edited once: what is remembered of it are its edited codes in 64ths,
 * which is all that the ordered dither of 64 levels asks for, so that nothing is lost.
 *
 * A colour's place in the table is made of the low bits of its channels: neighbours in the picture are neighbours in
 * the table, which the processor's own memory follows; scattered places took twice the time on noise.
 */
export function eightBitRows(
  { width, height, channels, data }: Raster,
  { edit, code }: PixelEdit,
  coverage: Coverage,
): (from: number, to: number, out: Uint8Array | Uint16Array) => void {
  const bits = Math.min(MOST_BITS, Math.max(LEAST_BITS, Math.ceil(Math.log2(width * height))));
  // Four numbers a colour: its key + 1 (0: nobody's place), then its edited codes in 64ths, the first −1 where it stays.
  const places = new Int32Array(4 << bits);
  const last = (1 << bits) - 1;
  const [forRed, forGreen, forBlue] = [2, 1, 0].map((c) => Math.floor((bits + c) / 3));
  const red = (1 << forRed) - 1;
  const green = (1 << forGreen) - 1;
  const blue = (1 << forBlue) - 1;
  const put = (at: number, i: number): void => {
    places[at + 1] = -1;
    if (edit(i)) for (let c = 0; c < 3; c++) places[at + 1 + c] = Math.floor(LEVELS * code[c] + 0.5);
  };
  const everywhere = coverage.areas === 0;
  return (from, to, out) => {
    let o = 0;
    for (let y = from; y < to; y++) {
      if (!everywhere) coverage.row(y);
      const order = (y & 7) << 3;
      for (let x = 0, i = channels * y * width; x < width; x++, i += channels, o += channels) {
        const r = data[i];
        const g = data[i + 1];
        const b = data[i + 2];
        const cover = everywhere ? 0 : coverage.at(x);
        const key = ((cover << 24) | (r << 16) | (g << 8) | b) + 1;
        const own = ((r & red) << (forGreen + forBlue)) | ((g & green) << forBlue) | (b & blue);
        const at = ((own + 12289 * cover) & last) << 2;
        if (cover < 0 || places[at] !== key) {
          places[at] = cover < 0 ? 0 : key;
          put(at, i);
        }
        if (places[at + 1] < 0) {
          out[o] = r;
          out[o + 1] = g;
          out[o + 2] = b;
        } else {
          const level = ORDER[order | (x & 7)];
          out[o] = (places[at + 1] + level) >> 6;
          out[o + 1] = (places[at + 2] + level) >> 6;
          out[o + 2] = (places[at + 3] + level) >> 6;
        }
        if (channels === 4) out[o + 3] = data[i + 3];
      }
    }
  };
}

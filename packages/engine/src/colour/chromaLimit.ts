import { fromSrgb } from './gamut.ts';
import { type Matrix, transform } from './matrix.ts';
import { oklabToLinear, oklchToOklab } from './oklab.ts';
import type { ColourSpace } from './space.ts';

const HUES = 360;
const LEVELS = 128;

/** Largest chroma of a gamut by lightness and hue, as a function read from a table. */
export type ChromaLimit = (L: number, hue: number) => number;

/** Tables made so far: they depend on the space only. */
const made = new WeakMap<ColourSpace, ChromaLimit>();

/**
 * The boundary of a space's gamut in OKLCh: the largest chroma that a lightness (0…1) and hue (degrees) can have.
 *
 * Found by halving on a grid of 129 lightnesses and 360 hues and read bilinearly, within 0.002 of the boundary.
 */
export function chromaLimit(space: ColourSpace): ChromaLimit {
  const known = made.get(space);
  if (known) return known;
  const table = tabulate(fromSrgb(space));
  const limit: ChromaLimit = (L, hue) => {
    if (L <= 0 || L >= 1) return 0;
    const v = L * LEVELS;
    const i = Math.min(LEVELS - 1, Math.floor(v));
    const u = ((hue % 360) + 360) % 360;
    const j = Math.floor(u) % HUES;
    const k = (j + 1) % HUES;
    const s = u - Math.floor(u);
    const low = table[i * HUES + j] + s * (table[i * HUES + k] - table[i * HUES + j]);
    const high = table[(i + 1) * HUES + j] + s * (table[(i + 1) * HUES + k] - table[(i + 1) * HUES + j]);
    return low + (v - i) * (high - low);
  };
  made.set(space, limit);
  return limit;
}

function tabulate(into: Matrix): Float32Array {
  const table = new Float32Array((LEVELS + 1) * HUES);
  for (let i = 1; i < LEVELS; i++)
    for (let j = 0; j < HUES; j++) {
      let low = 0;
      let high = 0.5;
      for (let k = 0; k < 14; k++) {
        const mid = (low + high) / 2;
        if (inside(into, i / LEVELS, mid, j)) low = mid;
        else high = mid;
      }
      table[i * HUES + j] = low;
    }
  return table;
}

function inside(into: Matrix, L: number, chroma: number, hue: number): boolean {
  const rgb = transform(into, oklabToLinear(oklchToOklab([L, chroma, hue])));
  return rgb.every((v) => v >= -1e-7 && v <= 1 + 1e-7);
}

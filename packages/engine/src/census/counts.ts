import type { Matrix } from '../colour/matrix.ts';
import type { Raster } from '../views/raster.ts';
import { pixelWords } from '../views/words.ts';
import type { CensusBuilder } from './census.ts';

/** Largest share of the picture that one cell may hold before it is split. */
export const SPLIT = 0.0005;

// A counter for every 8-bit colour. The high 6 bits of the channels choose the cell, the low 2 bits of each the
// place in it, so that the 64 colours of a cell lie side by side. (Int32: unsigned counters would leave the
// compiler's small integers, which costs three times the time; 2³¹ pixels are more than a raster holds.)
const RED = new Int32Array(256);
const GREEN = new Int32Array(256);
const BLUE = new Int32Array(256);
for (let v = 0; v < 256; v++) {
  RED[v] = ((v >> 2) << 18) | ((v & 3) << 4);
  GREEN[v] = ((v >> 2) << 12) | ((v & 3) << 2);
  BLUE[v] = ((v >> 2) << 6) | (v & 3);
}

/** How often each 8-bit colour occurs. */
export interface Counts {
  /** 2²⁴ counters, cell by cell. */
  readonly of: Int32Array;
  /** Number of pixels that were counted. */
  readonly area: number;
}

/**
 * Counts the opaque pixels of an 8-bit picture by colour.
 *
 * @param partly is called with runs [from, to) of pixels that are neither opaque nor wholly transparent
 */
export function countCodes(
  raster: Raster,
  chosen: Uint8Array | undefined,
  partly: (from: number, to: number) => void,
): Counts {
  const counts = new Int32Array(2 ** 24);
  if (raster.channels === 4 || chosen)
    return { of: counts, area: countChosen(raster, chosen, counts, partly) };
  countOpaque(raster, counts);
  return { of: counts, area: raster.width * raster.height };
}

/** Four pixels are three 32-bit words: a third of the loads. */
function countOpaque({ data }: Raster, counts: Int32Array): void {
  const words = pixelWords(data);
  const quads = words ? Math.floor(data.length / 12) : 0;
  if (words)
    for (let i = 0, end = 3 * quads; i < end; i += 3) {
      const p = words[i];
      const q = words[i + 1];
      const s = words[i + 2];
      counts[RED[p & 255] | GREEN[(p >> 8) & 255] | BLUE[(p >> 16) & 255]]++;
      counts[RED[p >>> 24] | GREEN[q & 255] | BLUE[(q >> 8) & 255]]++;
      counts[RED[(q >> 16) & 255] | GREEN[q >>> 24] | BLUE[s & 255]]++;
      counts[RED[(s >> 8) & 255] | GREEN[(s >> 16) & 255] | BLUE[s >>> 24]]++;
    }
  for (let i = 12 * quads; i < data.length; i += 3)
    counts[RED[data[i]] | GREEN[data[i + 1]] | BLUE[data[i + 2]]]++;
}

function countChosen(
  { data, channels, width, height }: Raster,
  chosen: Uint8Array | undefined,
  counts: Int32Array,
  partly: (from: number, to: number) => void,
): number {
  const pixels = width * height;
  const words = channels === 4 ? pixelWords(data) : null;
  let from = -1;
  let counted = 0;
  for (let p = 0, i = 0; p < pixels; p++, i += channels) {
    const word = words
      ? words[p]
      : data[i] | (data[i + 1] << 8) | (data[i + 2] << 16) | ((channels === 4 ? data[i + 3] : 255) << 24);
    const alpha = word >>> 24;
    const mixed = alpha > 0 && alpha < 255;
    if (mixed && from < 0) from = p;
    else if (!mixed && from >= 0) {
      partly(from, p);
      from = -1;
    }
    if (alpha === 255 && (!chosen || chosen[p])) {
      counts[RED[word & 255] | GREEN[(word >> 8) & 255] | BLUE[(word >> 16) & 255]]++;
      counted++;
    }
  }
  if (from >= 0) partly(from, pixels);
  return counted;
}

/** Turns counters into cells: the 64 colours of a 6-bit cell become one, or 8, or 64 where the cell is heavy. */
export function collapseCounts(
  { of: counts }: Counts,
  tables: readonly Float64Array[],
  toSrgb: Matrix,
  area: number,
  builder: CensusBuilder,
): void {
  const limit = SPLIT * area;
  const group = openGroup(tables, toSrgb, builder);
  for (let base = 0; base < counts.length; base += 64) {
    let weight = 0;
    for (let k = base; k < base + 64; k++) weight += counts[k];
    if (weight === 0) continue;
    if (weight <= limit) {
      for (let k = base; k < base + 64; k++) if (counts[k] !== 0) group.take(k, counts[k]);
      group.close();
      continue;
    }
    for (const octant of OCTANTS) {
      let part = 0;
      for (const k of octant) part += counts[base + k];
      for (const k of octant) {
        if (counts[base + k] !== 0) group.take(base + k, counts[base + k]);
        if (part > limit) group.close();
      }
      group.close();
    }
  }
}

/** The 64 places of a split cell (2 bits of red, green, blue) in groups of 8 neighbours. */
export const OCTANTS: readonly (readonly number[])[] = Array.from({ length: 8 }, (_, o) =>
  Array.from({ length: 64 }, (_, k) => k).filter(
    (k) => (((k >> 5) & 1) << 2) + (((k >> 3) & 1) << 1) + ((k >> 1) & 1) === o,
  ),
);

/** Collects exact colours until `close` makes a cell of them (nothing when there were none). */
function openGroup(
  [tr, tg, tb]: readonly Float64Array[],
  m: Matrix,
  builder: CensusBuilder,
): { take(index: number, n: number): void; close(): void } {
  let weight = 0;
  let floor = 0;
  let ceiling = 0;
  let r = 0;
  let g = 0;
  let b = 0;
  return {
    take(index, n) {
      const cr = ((index >> 16) & 252) | ((index >> 4) & 3);
      const cg = ((index >> 10) & 252) | ((index >> 2) & 3);
      const cb = ((index >> 4) & 252) | (index & 3);
      weight += n;
      r += n * tr[cr];
      g += n * tg[cg];
      b += n * tb[cb];
      if (cr === 0 || cg === 0 || cb === 0) floor += n;
      if (cr === 255 || cg === 255 || cb === 255) ceiling += n;
    },
    close() {
      if (weight === 0) return;
      r /= weight;
      g /= weight;
      b /= weight;
      builder.add(
        weight,
        floor,
        ceiling,
        m[0] * r + m[1] * g + m[2] * b,
        m[3] * r + m[4] * g + m[5] * b,
        m[6] * r + m[7] * g + m[8] * b,
      );
      weight = floor = ceiling = r = g = b = 0;
    },
  };
}

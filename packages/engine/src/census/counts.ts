import type { Matrix } from '../colour/matrix.ts';
import type { Raster } from '../views/raster.ts';
import type { CensusBuilder } from './census.ts';

/** Largest share of the picture that one cell may hold before it is split. */
export const SPLIT = 0.0005;

// A counter for every 8-bit colour. The high 6 bits of the channels choose the cell, the low 2 bits of each the
// place in it, so that the 64 colours of a cell lie side by side.
const RED = new Uint32Array(256);
const GREEN = new Uint32Array(256);
const BLUE = new Uint32Array(256);
for (let v = 0; v < 256; v++) {
  RED[v] = ((v >> 2) << 18) | ((v & 3) << 4);
  GREEN[v] = ((v >> 2) << 12) | ((v & 3) << 2);
  BLUE[v] = ((v >> 2) << 6) | (v & 3);
}

/**
 * Counts the opaque pixels of an 8-bit picture by colour: 2²⁴ counters, cell by cell.
 *
 * @param partly is called with runs [from, to) of pixels that are neither opaque nor wholly transparent
 */
export function countCodes(
  raster: Raster,
  chosen: Uint8Array | undefined,
  partly: (from: number, to: number) => void,
): Uint32Array {
  const counts = new Uint32Array(2 ** 24);
  const { data, channels } = raster;
  const pixels = raster.width * raster.height;
  if (channels === 3 && !chosen) {
    for (let i = 0, end = 3 * pixels; i < end; i += 3)
      counts[RED[data[i]] | GREEN[data[i + 1]] | BLUE[data[i + 2]]]++;
    return counts;
  }
  let from = -1;
  for (let p = 0, i = 0; p < pixels; p++, i += channels) {
    const alpha = channels === 4 ? data[i + 3] : 255;
    const mixed = alpha > 0 && alpha < 255;
    if (mixed && from < 0) from = p;
    else if (!mixed && from >= 0) {
      partly(from, p);
      from = -1;
    }
    if (alpha === 255 && (!chosen || chosen[p]))
      counts[RED[data[i]] | GREEN[data[i + 1]] | BLUE[data[i + 2]]]++;
  }
  if (from >= 0) partly(from, pixels);
  return counts;
}

/** Turns counters into cells: the 64 colours of a 6-bit cell become one, or 8, or 64 where the cell is heavy. */
export function collapseCounts(
  counts: Uint32Array,
  tables: readonly Float64Array[],
  toSrgb: Matrix,
  pixels: number,
  builder: CensusBuilder,
): void {
  const limit = SPLIT * pixels;
  for (let base = 0; base < counts.length; base += 64) {
    let weight = 0;
    for (let k = 0; k < 64; k++) weight += counts[base + k];
    if (weight === 0) continue;
    if (weight <= limit) addGroup(counts, base, ALL, tables, toSrgb, builder);
    else
      for (const octant of OCTANTS) {
        let part = 0;
        for (const k of octant) part += counts[base + k];
        if (part > limit) for (const k of octant) addGroup(counts, base, [k], tables, toSrgb, builder);
        else if (part > 0) addGroup(counts, base, octant, tables, toSrgb, builder);
      }
  }
}

const ALL = Array.from({ length: 64 }, (_, k) => k);
const OCTANTS = Array.from({ length: 8 }, (_, o) =>
  ALL.filter((k) => (((k >> 5) & 1) << 2) + (((k >> 3) & 1) << 1) + ((k >> 1) & 1) === o),
);

function addGroup(
  counts: Uint32Array,
  base: number,
  group: readonly number[],
  [tr, tg, tb]: readonly Float64Array[],
  m: Matrix,
  builder: CensusBuilder,
): void {
  let weight = 0;
  let floor = 0;
  let ceiling = 0;
  let r = 0;
  let g = 0;
  let b = 0;
  for (const k of group) {
    const n = counts[base + k];
    if (n === 0) continue;
    const cr = (((base >> 18) & 63) << 2) | (k >> 4);
    const cg = (((base >> 12) & 63) << 2) | ((k >> 2) & 3);
    const cb = (((base >> 6) & 63) << 2) | (k & 3);
    weight += n;
    r += n * tr[cr];
    g += n * tg[cg];
    b += n * tb[cb];
    if (cr === 0 || cg === 0 || cb === 0) floor += n;
    if (cr === 255 || cg === 255 || cb === 255) ceiling += n;
  }
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
}

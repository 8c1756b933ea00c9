import type { Raster } from '../views/raster.ts';
import type { CensusBuilder } from './census.ts';
import { SPLIT } from './counts.ts';

/** Weights and sums of linear light on a grid of 7-bit code values, 6 numbers a cell. */
export interface Sums {
  readonly raster: Raster;
  readonly tables: readonly Float64Array[];
  /** Per cell: weight, weight at the floor, weight at the ceiling, and weighted sums of r, g, b in the picture's own primaries. */
  readonly grid: Map<number, number>;
  rows: Float64Array;
  used: number;
}

// The grid is sparse (paintings fill a few ten thousand of 2²¹ cells), so cells are numbered in order of appearance.
export function openSums(raster: Raster, tables: readonly Float64Array[]): Sums {
  return { raster, tables, grid: new Map(), rows: new Float64Array(6 * 16384), used: 0 };
}

/** Adds pixels [from, to), weighted by alpha. */
export function sumInto(sums: Sums, from: number, to: number, chosen?: Uint8Array): void {
  const { data, channels, depth } = sums.raster;
  const [tr, tg, tb] = sums.tables;
  const shift = depth - 7;
  const max = 2 ** depth - 1;
  const { grid } = sums;
  let rows = sums.rows;
  let last = -1;
  let at = 0;
  for (let p = from, i = from * channels; p < to; p++, i += channels) {
    if (chosen && !chosen[p]) continue;
    const weight = channels === 4 ? data[i + 3] / max : 1;
    if (weight === 0) continue;
    const r = data[i];
    const g = data[i + 1];
    const b = data[i + 2];
    const cell = ((r >> shift) << 14) | ((g >> shift) << 7) | (b >> shift);
    // Neighbours mostly share a cell: the look-up is skipped then.
    if (cell !== last) {
      last = cell;
      const known = grid.get(cell);
      if (known === undefined) {
        if (6 * sums.used === rows.length) {
          const grown = new Float64Array(2 * rows.length);
          grown.set(rows);
          rows = grown;
          sums.rows = grown;
        }
        at = 6 * sums.used++;
        grid.set(cell, at);
      } else at = known;
    }
    rows[at] += weight;
    if (r === 0 || g === 0 || b === 0) rows[at + 1] += weight;
    if (r === max || g === max || b === max) rows[at + 2] += weight;
    rows[at + 3] += weight * tr[r];
    rows[at + 4] += weight * tg[g];
    rows[at + 5] += weight * tb[b];
  }
}

/** Turns sums into cells: the 8 neighbours of a 6-bit cell become one unless the cell is heavy. */
export function collapseSums(sums: Sums, pixels: number, builder: CensusBuilder): void {
  const limit = SPLIT * pixels;
  const { rows, grid } = sums;
  const m = sums.raster.space.toSrgb;
  const coarse = new Map<number, number[]>();
  for (const [cell, at] of grid) {
    const parent = ((cell >> 15) << 12) | (((cell >> 8) & 63) << 6) | ((cell >> 1) & 63);
    const members = coarse.get(parent);
    if (members) members.push(at);
    else coarse.set(parent, [at]);
  }
  for (const parent of [...coarse.keys()].sort((a, b) => a - b)) {
    const members = coarse.get(parent)!;
    let weight = 0;
    for (const at of members) weight += rows[at];
    if (weight > limit) for (const at of members) addCell(rows, [at], m, builder);
    else addCell(rows, members, m, builder);
  }
}

function addCell(
  rows: Float64Array,
  members: readonly number[],
  m: readonly number[],
  builder: CensusBuilder,
): void {
  const sum = [0, 0, 0, 0, 0, 0];
  for (const at of members) for (let k = 0; k < 6; k++) sum[k] += rows[at + k];
  const r = sum[3] / sum[0];
  const g = sum[4] / sum[0];
  const b = sum[5] / sum[0];
  builder.add(
    sum[0],
    sum[1],
    sum[2],
    m[0] * r + m[1] * g + m[2] * b,
    m[3] * r + m[4] * g + m[5] * b,
    m[6] * r + m[7] * g + m[8] * b,
  );
}

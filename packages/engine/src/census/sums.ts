import type { Raster } from '../views/raster.ts';
import type { CensusBuilder } from './census.ts';
import { OCTANTS, SPLIT } from './counts.ts';
import { type Forest, growForest } from './forest.ts';

/** Weights and sums of linear light over the leaves of a forest of code values. */
export interface Sums {
  readonly raster: Raster;
  readonly tables: readonly Float64Array[];
  readonly forest: Forest;
  /** Per leaf: weight, and weighted sums of r, g, b in the picture's own primaries. */
  readonly rows: Float64Array;
  /** Per leaf: weight at the floor, weight at the ceiling. */
  readonly limits: Float64Array;
}

export function openSums(raster: Raster, tables: readonly Float64Array[], chosen?: Uint8Array): Sums {
  const forest = growForest(raster, SPLIT, chosen);
  const leaves = forest.next.length;
  return { raster, tables, forest, rows: new Float64Array(4 * leaves), limits: new Float64Array(2 * leaves) };
}

/** Adds pixels [from, to), weighted by alpha. */
export function sumInto(sums: Sums, from: number, to: number, chosen?: Uint8Array): void {
  if (sums.raster.channels === 3 && !chosen) sumOpaque(sums, from, to);
  else sumWeighted(sums, from, to, chosen);
}

function sumOpaque({ rows, limits, raster, forest, tables }: Sums, from: number, to: number): void {
  const { data, depth } = raster;
  const { next } = forest;
  const [tr, tg, tb] = tables;
  const top = depth - 6;
  const near = limitWidth(depth);
  const last = 2 ** depth - 2 - near;
  for (let i = 3 * from, end = 3 * to; i < end; i += 3) {
    const r = data[i];
    const g = data[i + 1];
    const b = data[i + 2];
    let leaf = ((r >> top) << 12) | ((g >> top) << 6) | (b >> top);
    for (let s = top - 2, branch = next[leaf]; branch !== 0; s -= 2, branch = next[leaf])
      leaf = branch + ((((r >> s) & 3) << 4) | (((g >> s) & 3) << 2) | ((b >> s) & 3));
    const at = leaf << 2;
    rows[at] += 1;
    rows[at + 1] += tr[r];
    rows[at + 2] += tg[g];
    rows[at + 3] += tb[b];
    // Negative only when some channel is at a limit.
    if (((r - 1 - near) | (g - 1 - near) | (b - 1 - near) | (last - r) | (last - g) | (last - b)) < 0)
      countLimits(limits, leaf, r, g, b, depth, 1);
  }
}

function sumWeighted(sums: Sums, from: number, to: number, chosen?: Uint8Array): void {
  const { rows, limits } = sums;
  const { data, channels, depth } = sums.raster;
  const { next } = sums.forest;
  const [tr, tg, tb] = sums.tables;
  const top = depth - 6;
  const max = 2 ** depth - 1;
  for (let p = from, i = from * channels; p < to; p++, i += channels) {
    if (chosen && !chosen[p]) continue;
    const weight = channels === 4 ? data[i + 3] / max : 1;
    if (weight === 0) continue;
    const r = data[i];
    const g = data[i + 1];
    const b = data[i + 2];
    let leaf = ((r >> top) << 12) | ((g >> top) << 6) | (b >> top);
    for (let s = top - 2, branch = next[leaf]; branch !== 0; s -= 2, branch = next[leaf])
      leaf = branch + ((((r >> s) & 3) << 4) | (((g >> s) & 3) << 2) | ((b >> s) & 3));
    const at = leaf << 2;
    rows[at] += weight;
    rows[at + 1] += weight * tr[r];
    rows[at + 2] += weight * tg[g];
    rows[at + 3] += weight * tb[b];
    countLimits(limits, leaf, r, g, b, depth, weight);
  }
}

/** Code values from a limit that still count as standing at it: half a step of 8 bits, so that every depth counts alike. */
function limitWidth(depth: 8 | 16): number {
  return depth === 16 ? 128 : 0;
}

function countLimits(
  limits: Float64Array,
  leaf: number,
  r: number,
  g: number,
  b: number,
  depth: 8 | 16,
  weight: number,
): void {
  const low = limitWidth(depth);
  const high = 2 ** depth - 1 - low;
  if (r <= low || g <= low || b <= low) limits[2 * leaf] += weight;
  if (r >= high || g >= high || b >= high) limits[2 * leaf + 1] += weight;
}

/** Sum of all weights. */
export function sumsArea({ rows }: Sums): number {
  let area = 0;
  for (let at = 0; at < rows.length; at += 4) area += rows[at];
  return area;
}

/** Turns sums into cells: 8 neighbouring leaves of a split cell become one again where they are light. */
export function collapseSums(sums: Sums, area: number, builder: CensusBuilder): void {
  const limit = SPLIT * area;
  const { rows, limits, forest } = sums;
  const m = sums.raster.space.toSrgb;
  const addCell = (leaves: readonly number[]): void => {
    const cell = [0, 0, 0, 0, 0, 0];
    for (const leaf of leaves) {
      for (let k = 0; k < 4; k++) cell[k] += rows[4 * leaf + k];
      cell[4] += limits[2 * leaf];
      cell[5] += limits[2 * leaf + 1];
    }
    const [weight, sumR, sumG, sumB, floor, ceiling] = cell;
    if (weight === 0) return;
    const r = sumR / weight;
    const g = sumG / weight;
    const b = sumB / weight;
    builder.add(
      weight,
      floor,
      ceiling,
      m[0] * r + m[1] * g + m[2] * b,
      m[3] * r + m[4] * g + m[5] * b,
      m[6] * r + m[7] * g + m[8] * b,
    );
  };
  for (let leaf = 0; leaf < forest.roots; leaf++) if (rows[4 * leaf] > 0) addCell([leaf]);
  for (let branch = forest.roots; branch < forest.next.length; branch += 64)
    for (const octant of OCTANTS) {
      let part = 0;
      for (const k of octant) part += rows[4 * (branch + k)];
      if (part > limit) for (const k of octant) addCell([branch + k]);
      else if (part > 0) addCell(octant.map((k) => branch + k));
    }
}

import { changes, missOf, type Ratio } from './curve.ts';
import type { Pairs } from './pairs.ts';
import type { Regions } from './regions.ts';
import type { Shift } from './types.ts';
import { LEAST_DROP, MOST_DROP } from './votes.ts';

/** A change follows the curve when it misses it by less than this; how it counts up to there. Our defaults. */
const REACH = 0.09;
const TOLERANCE = 0.06;
/** Smaller changes of log-chromaticity have no direction; the cosine to the light's that counts as along it. */
const LEAST_CHANGE = 0.06;
const ALONG = 0.8;

/** What the changes that follow a light have in common besides it. */
export interface Sides {
  /**
   * Share of the surfaces' changes that lie on one side of grey, ½…1. A light turns greys, warm and cool pigments
   * alike, and its changes cross grey. Where all of them end at grey or set out from it, a pigment that pales towards
   * the light (leaves, ink, glass), or a glow that deepens, would do the same without any light.
   */
  readonly oneSided: number;
  /**
   * How often the changes are borders between neighbours, in units of how often all changes of the picture are. A
   * light draws borders as all else does; a blend from one colour to another does not.
   */
  readonly borders: number;
}

/** @param cell size of a cell of log-chromaticity; changes from one cell count as one surface (by the root) */
export function sidesOf(
  regions: Regions,
  pairs: Pairs,
  radius: number,
  cell: number,
  q: Ratio,
  shift: Shift,
): Sides {
  const { x, y } = regions;
  const table = changes(q);
  const length = Math.hypot(shift.x, shift.y);
  const ux = shift.x / length;
  const uy = shift.y / length;
  const surfaces = new Map<number, { weight: number; below: number }>();
  let [total, bordering, on, onBordering] = [0, 0, 0, 0];
  for (let p = 0; p < pairs.count; p++) {
    const dl = pairs.dl[p];
    if (dl <= LEAST_DROP || dl >= MOST_DROP || pairs.distance[p] > radius) continue;
    const i = pairs.bright[p];
    const j = pairs.dark[p];
    const near = 1 / (pairs.distance[p] + radius / 3);
    const touch = neighbours(regions, i, j);
    total += near;
    if (touch) bordering += near;
    const change = Math.hypot(pairs.dx[p], pairs.dy[p]);
    if (change < LEAST_CHANGE || pairs.dx[p] * ux + pairs.dy[p] * uy < ALONG * change) continue;
    const miss = missOf(pairs.dx[p], pairs.dy[p], dl, table);
    if (miss > REACH) continue;
    const weight = near * Math.exp(-0.5 * (miss / TOLERANCE) ** 2);
    on += weight;
    if (touch) onBordering += weight;
    const bright = x[i] * ux + y[i] * uy;
    const dark = x[j] * ux + y[j] * uy;
    const key = Math.round((x[i] + x[j]) / 2 / cell) * 1000 + Math.round((y[i] + y[j]) / 2 / cell);
    const surface = surfaces.get(key) ?? { weight: 0, below: 0 };
    surface.weight += weight;
    surface.below += (weight * (Math.min(0, bright) - Math.min(0, dark))) / (bright - dark);
    surfaces.set(key, surface);
  }
  let [sum, below] = [0, 0];
  for (const surface of surfaces.values()) {
    const root = Math.sqrt(surface.weight);
    sum += root;
    below += (root * surface.below) / surface.weight;
  }
  if (!(sum > 0)) return { oneSided: 1, borders: 0 };
  return {
    oneSided: Math.max(below, sum - below) / sum,
    borders: bordering > 0 ? onBordering / on / (bordering / total) : 1,
  };
}

function neighbours({ first, neighbour }: Regions, i: number, j: number): boolean {
  for (let e = first[i]; e < first[i + 1]; e++) if (neighbour[e] === j) return true;
  return false;
}

import type { Pieces } from './pieces.ts';
import type { Regions } from './regions.ts';

/** Undirected links between pieces with a strength each, 0…1. */
export interface Links {
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly strength: Float64Array;
}

/** Touching pieces; the strength is the common border's share of both rims (geometric mean of the two). */
export function touching(regions: Regions, pieces: Pieces): Links {
  const { count, first, neighbour, border } = regions;
  const n = pieces.count;
  const rim = new Float64Array(n);
  const shared = new Map<number, number>();
  for (let i = 0; i < count; i++) {
    const a = pieces.of[i];
    if (a < 0) continue;
    for (let e = first[i]; e < first[i + 1]; e++) {
      const b = pieces.of[neighbour[e]];
      if (b === a) continue;
      rim[a] += border[e];
      if (b > a) shared.set(a * n + b, (shared.get(a * n + b) ?? 0) + border[e]);
    }
  }
  return fromMap(shared, n, (a, b, length) => length / Math.sqrt(rim[a] * rim[b]));
}

/** Likeness is looked for within this gap, in pixels. */
const REACH = 150;
/** Like pieces each piece is linked to. */
const MOST = 6;
/** Scales that make a difference of one: ℓ, texture, pixels. */
const DARKER = 0.15;
const GRAIN = 0.03;
const FAR = 70;

/**
 * The likest pieces of each piece by colour, texture and nearness: chains of them carry evidence along a surface.
 * The strength is exp(−½d²)/6, with d in units of the scales.
 *
 * @param colour scale of log-chromaticity
 */
export function likest(pieces: Pieces, gaps: Float32Array, colour: number): Links {
  const { count, x, y, l, grain } = pieces;
  const found = new Map<number, number>();
  const best = new Float64Array(MOST);
  const who = new Int32Array(MOST);
  for (let i = 0; i < count; i++) {
    best.fill(6);
    who.fill(-1);
    for (let j = 0; j < count; j++) {
      const gap = gaps[i * count + j];
      if (j === i || gap > REACH) continue;
      const d =
        ((x[i] - x[j]) ** 2 + (y[i] - y[j]) ** 2) / colour ** 2 +
        ((l[i] - l[j]) / DARKER) ** 2 +
        ((grain[i] - grain[j]) / GRAIN) ** 2 +
        (gap / FAR) ** 2;
      if (d >= best[MOST - 1]) continue;
      let k = MOST - 1;
      while (k > 0 && best[k - 1] > d) {
        best[k] = best[k - 1];
        who[k] = who[k - 1];
        k--;
      }
      best[k] = d;
      who[k] = j;
    }
    for (let k = 0; k < MOST; k++) {
      if (who[k] >= 0) found.set(Math.min(i, who[k]) * count + Math.max(i, who[k]), best[k]);
    }
  }
  return fromMap(found, count, (_a, _b, d) => Math.exp(-0.5 * d) / MOST);
}

/** Least distance between the middles of two pieces' regions, pixels, `count × count`. */
export function gapsOf(regions: Regions, pieces: Pieces): Float32Array {
  const n = pieces.count;
  const gaps = new Float32Array(n * n).fill(Number.POSITIVE_INFINITY);
  const members: number[] = [];
  for (let i = 0; i < regions.count; i++) if (pieces.of[i] >= 0) members.push(i);
  for (const i of members) {
    const a = pieces.of[i] * n;
    for (const j of members) {
      const dx = regions.px[i] - regions.px[j];
      const dy = regions.py[i] - regions.py[j];
      const d = dx * dx + dy * dy;
      const at = a + pieces.of[j];
      if (d < gaps[at]) gaps[at] = d;
    }
  }
  for (let k = 0; k < gaps.length; k++) gaps[k] = Math.sqrt(gaps[k]);
  return gaps;
}

function fromMap(
  map: Map<number, number>,
  n: number,
  strength: (a: number, b: number, v: number) => number,
): Links {
  const keys = [...map.keys()].sort((p, q) => p - q);
  const a = Int32Array.from(keys, (k) => Math.floor(k / n));
  const b = Int32Array.from(keys, (k) => k % n);
  return { a, b, strength: Float64Array.from(keys, (k, e) => strength(a[e], b[e], map.get(k)!)) };
}

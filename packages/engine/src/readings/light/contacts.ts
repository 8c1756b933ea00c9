import type { Pairs } from './pairs.ts';
import type { Pieces } from './pieces.ts';

/** Pairs of pieces, the brighter one first, gathered from the pairs of their regions. */
export interface Contacts extends Pairs {
  /** How much of each other the pieces see: sum over their regions' pairs, a near pair counting more. */
  readonly weight: Float64Array;
  /** The contact of each pair of regions, −1 within one piece. */
  readonly of: Int32Array;
}

/** @param near distance in pixels at which a pair of regions counts half */
export function contactsOf(pieces: Pieces, pairs: Pairs, near: number): Contacts {
  const index = new Map<number, number>();
  const of = new Int32Array(pairs.count).fill(-1);
  const a: number[] = [];
  const b: number[] = [];
  const sums: number[] = []; // weight, dx, dy, dl, distance
  for (let p = 0; p < pairs.count; p++) {
    const i = pieces.of[pairs.bright[p]];
    const j = pieces.of[pairs.dark[p]];
    if (i === j) continue;
    const [low, high, sign] = i < j ? [i, j, 1] : [j, i, -1];
    const key = low * pieces.count + high;
    let c = index.get(key);
    if (c === undefined) {
      c = a.length;
      index.set(key, c);
      a.push(low);
      b.push(high);
      sums.push(0, 0, 0, 0, Number.POSITIVE_INFINITY);
    }
    of[p] = c;
    const w = 1 / (1 + (pairs.distance[p] / near) ** 2);
    sums[5 * c] += w;
    sums[5 * c + 1] += sign * w * pairs.dx[p];
    sums[5 * c + 2] += sign * w * pairs.dy[p];
    sums[5 * c + 3] += sign * w * pairs.dl[p];
    sums[5 * c + 4] = Math.min(sums[5 * c + 4], pairs.distance[p]);
  }
  const n = a.length;
  const out = {
    count: n,
    of,
    bright: new Int32Array(n),
    dark: new Int32Array(n),
    dx: new Float64Array(n),
    dy: new Float64Array(n),
    dl: new Float64Array(n),
    distance: new Float64Array(n),
    weight: new Float64Array(n),
  };
  for (let c = 0; c < n; c++) {
    const w = sums[5 * c];
    const sign = sums[5 * c + 3] >= 0 ? 1 : -1;
    out.bright[c] = sign > 0 ? a[c] : b[c];
    out.dark[c] = sign > 0 ? b[c] : a[c];
    out.dx[c] = (sign * sums[5 * c + 1]) / w;
    out.dy[c] = (sign * sums[5 * c + 2]) / w;
    out.dl[c] = (sign * sums[5 * c + 3]) / w;
    out.distance[c] = sums[5 * c + 4];
    out.weight[c] = w;
  }
  return out;
}

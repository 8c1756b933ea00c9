import type { Pieces } from '../pieces.ts';
import type { Regions } from '../regions.ts';
import { RELATIONS, type Relations } from './relations.ts';

/** A step across a border counts as plain darkening from this share of the full drop. */
const LEAST_NEUTRAL = 0.2;
const K = 4;
/** Relations to brighter neighbours, to darker ones, and what is not judged. */
export const KINDS = 2 * RELATIONS + 1;

/** Shares of each piece's rim: what lies across it (`count × 7`), and how that was labelled (`count × 4`). */
export interface Rims {
  readonly kinds: Float64Array;
  readonly labels: Float64Array;
}

/** What lies across each piece's rim, weighed by the length of the border. */
export function rimsOf(
  { count, first, neighbour, border }: Regions,
  pieces: Pieces,
  labels: Float64Array,
  relations: Relations,
): Rims {
  const { x, y, l } = pieces;
  const kinds = new Float64Array(KINDS * pieces.count);
  const around = new Float64Array(K * pieces.count);
  const length = new Float64Array(pieces.count);
  const says = new Float64Array(RELATIONS);
  for (let r = 0; r < count; r++) {
    const a = pieces.of[r];
    if (a < 0) continue;
    for (let e = first[r]; e < first[r + 1]; e++) {
      const b = pieces.of[neighbour[e]];
      if (b === a) continue;
      length[a] += border[e];
      if (b < 0) {
        kinds[KINDS * a + KINDS - 1] += border[e];
        continue;
      }
      for (let k = 0; k < K; k++) around[K * a + k] += border[e] * labels[K * b + k];
      const up = l[b] >= l[a] ? 1 : -1;
      relations.tell(says, up * (x[b] - x[a]), up * (y[b] - y[a]), up * (l[b] - l[a]), LEAST_NEUTRAL);
      const at = KINDS * a + (up > 0 ? 0 : RELATIONS);
      for (let k = 0; k < RELATIONS; k++) kinds[at + k] += border[e] * says[k];
    }
  }
  for (let p = 0; p < pieces.count; p++) {
    const whole = Math.max(1, length[p]);
    for (let k = 0; k < KINDS; k++) kinds[KINDS * p + k] /= whole;
    for (let k = 0; k < K; k++) around[K * p + k] /= whole;
  }
  return { kinds, labels: around };
}

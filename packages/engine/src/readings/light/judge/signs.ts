import type { Pieces } from '../pieces.ts';
import type { Regions } from '../regions.ts';
import type { Partners } from './partners.ts';
import { RELATIONS, type Relations } from './relations.ts';
import { KINDS, type Rims } from './rims.ts';

const K = 4;

/** Numbers that are weighed for each piece. */
export const SIGNS = K + 18 + 6 + 9 + 3 + 3 + K + KINDS + K + 6 + 5;

/**
 * All that is weighed of each piece, `count × SIGNS`: its labels so far, its partners, its rim, itself, the picture.
 * Nothing in it is a colour of its own or a place in the picture, only how it stands to the light and to the others.
 */
export function signsOf(
  regions: Regions,
  pieces: Pieces,
  labels: Float64Array,
  partners: Partners,
  rims: Rims,
  relations: Relations,
): Float32Array {
  const { count, area, grain, x, y, l } = pieces;
  const { width, height } = regions.segmentation;
  const { drop, turn, ux, uy } = relations;
  const means = meansOf(pieces, labels);
  const out = new Float32Array(count * SIGNS);
  let at = 0;
  const put = (v: number) => {
    out[at++] = v;
  };
  const copy = (from: Float64Array, p: number, n: number, scale = 1) => {
    for (let k = 0; k < n; k++) put(from[n * p + k] / scale);
  };
  const soft = (from: Float64Array, p: number, n: number) => {
    for (let k = 0; k < n; k++) put(Math.log1p(4 * from[n * p + k]));
  };
  for (let p = 0; p < count; p++) {
    copy(labels, p, K);
    soft(partners.brighter, p, 3 * RELATIONS);
    soft(partners.brighterLit, p, 3 * RELATIONS);
    copy(partners.best, p, 2 * RELATIONS);
    soft(partners.darker, p, 3 * RELATIONS);
    soft(partners.darkerNear, p, RELATIONS);
    soft(partners.same, p, 3);
    copy(partners.sameLabels, p, K, partners.same[3 * p + 1] + 0.05);
    copy(rims.kinds, p, KINDS);
    copy(rims.labels, p, K);
    put(Math.log(area[p] / (width * height)) / 3);
    put(4 * grain[p]);
    put((l[p] - means.l) / drop);
    put(x[p] * ux + y[p] * uy);
    put(y[p] * ux - x[p] * uy);
    put(Math.hypot(x[p], y[p]));
    put(drop);
    put(turn);
    for (let k = 1; k < K; k++) put(means.labels[k]);
  }
  return out;
}

/** Means over the area that is judged. */
function meansOf({ count, area, l }: Pieces, labels: Float64Array) {
  const sums = [0, 0, 0, 0];
  let [sum, light] = [0, 0];
  for (let p = 0; p < count; p++) {
    sum += area[p];
    light += area[p] * l[p];
    for (let k = 0; k < K; k++) sums[k] += area[p] * labels[K * p + k];
  }
  return { l: light / sum, labels: sums.map((v) => v / sum) };
}

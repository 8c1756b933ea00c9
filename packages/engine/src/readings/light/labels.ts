import type { Triple } from '../../colour/matrix.ts';
import { carryNeutral } from './carry.ts';
import { contactsOf } from './contacts.ts';
import type { Ratio } from './curve.ts';
import { hear, missesOf } from './evidence.ts';
import { gatherSigns, judge } from './judge/judge.ts';
import { NETWORK } from './judge/weights.ts';
import { gapsOf, likest, touching } from './links.ts';
import { meanField } from './meanField.ts';
import type { Pairs } from './pairs.ts';
import { patternOf } from './patterns.ts';
import { piecesOf } from './pieces.ts';
import { POTENTIALS, type Potentials } from './potentials.ts';
import { recedes } from './recede.ts';
import type { Regions } from './regions.ts';
import type { Watch } from './watch.ts';

export interface Labelling {
  /** count × 4: lit, shade, neutral, opposite; 0 where a region is not valid. */
  readonly probability: Float64Array;
  /** For each pair of regions: shade, neutral, opposite, 0…1. */
  readonly says: Float32Array;
  readonly weight: Float32Array;
  /** Piece of each region, −1 where it is not valid. */
  readonly pieceOf: Int32Array;
  /** For each region, one that shows its colour in the light, however far off; −1 where none does. */
  readonly litFrom: Int32Array;
}

/**
 * Labels of all valid regions in a light of ratio q = K/A.
 *
 * @param air colour of the sky where it meets the land; null where none is seen
 * @param behindAir air was taken off the regions
 */
export function labelRegions(
  regions: Regions,
  valid: Uint8Array,
  pairs: Pairs,
  q: Ratio,
  air: Readonly<Triple> | null,
  behindAir: boolean,
  watch?: Watch,
  t: Potentials = POTENTIALS,
): Labelling {
  const pieces = piecesOf(regions, valid);
  const contacts = contactsOf(pieces, pairs, t.near);
  const unlike = {
    pattern: patternOf(regions, pieces, contacts),
    recedes: recedes(regions, pieces, contacts, air),
  };
  const said = hear(pieces, contacts, missesOf(contacts, q, t), unlike, t);
  const gaps = gapsOf(regions, pieces);
  const like = likest(pieces, gaps, t.likeColour);
  const touch = touching(regions, pieces);
  const labels = meanField(pieces.count, contacts, said, like, touch, t);
  const carried = carryNeutral(labels, pieces, contacts, said, touch, gaps);
  const signs = gatherSigns(regions, pieces, gaps, labels, q);
  watch?.pieces?.(pieces, signs);
  const partner = judge(signs, labels, NETWORK, behindAir);
  const probability = new Float64Array(4 * regions.count);
  const litFrom = new Int32Array(regions.count).fill(-1);
  const member = new Int32Array(pieces.count).fill(-1);
  for (let i = 0; i < regions.count; i++)
    if (pieces.of[i] >= 0 && member[pieces.of[i]] < 0) member[pieces.of[i]] = i;
  for (let i = 0; i < regions.count; i++) {
    if (pieces.of[i] < 0) continue;
    const from = carried[pieces.of[i]] >= 0 ? carried[pieces.of[i]] : partner[pieces.of[i]];
    if (from >= 0) litFrom[i] = member[from];
    for (let k = 0; k < 4; k++) probability[4 * i + k] = labels[4 * pieces.of[i] + k];
  }
  const says = new Float32Array(3 * pairs.count);
  const weight = new Float32Array(pairs.count);
  for (let p = 0; p < pairs.count; p++) {
    const c = contacts.of[p];
    if (c < 0) continue;
    for (let k = 0; k < 3; k++) says[3 * p + k] = said.says[3 * c + k];
    weight[p] = 1 / (1 + (pairs.distance[p] / t.near) ** 2);
  }
  return { probability, says, weight, pieceOf: pieces.of, litFrom };
}

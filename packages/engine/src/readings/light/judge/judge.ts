import type { Ratio } from '../curve.ts';
import type { Pieces } from '../pieces.ts';
import type { Regions } from '../regions.ts';
import { type Network, probabilitiesOf } from './network.ts';
import { partnersOf } from './partners.ts';
import { relationsOf } from './relations.ts';
import { rimsOf } from './rims.ts';
import { signsOf } from './signs.ts';

const K = 4;
const [LIT, SHADE, NEUTRAL, OPPOSITE] = [0, 1, 2, 3];

/** What is weighed for each piece, and the piece whose colour would be its lit one, if it were neutral or opposite. */
export interface Signs {
  readonly values: Float32Array;
  readonly litFor: readonly [neutral: Int32Array, opposite: Int32Array];
}

/**
 * All that `judge` weighs.
 *
 * @param gaps least distances between pieces, pixels, `count × count`
 * @param labels what the pieces were taken for so far, `count × 4`
 */
export function gatherSigns(
  regions: Regions,
  pieces: Pieces,
  gaps: Float32Array,
  labels: Float64Array,
  q: Ratio,
): Signs {
  const { width, height } = regions.segmentation;
  const relations = relationsOf(q);
  const partners = partnersOf(pieces, gaps, labels, relations, width * height);
  const rims = rimsOf(regions, pieces, labels, relations);
  return { values: signsOf(regions, pieces, labels, partners, rims, relations), litFor: partners.litFor };
}

/** Behind air, a piece must have been taken for a fault as much as this before, too; our default. */
const BEFORE = 0.2;

/**
 * Labels of the pieces after all signs are weighed together; what is neither neutral nor opposite is shared between
 * lit and shade as it was before. Changes `labels`; returns the lit partner of every piece, −1 without.
 *
 * @param behindAir what was taken off is not known well: both must say that a piece is a fault
 */
export function judge(signs: Signs, labels: Float64Array, network: Network, behindAir: boolean): Int32Array {
  const weighed = probabilitiesOf(network, signs.values);
  const count = labels.length / K;
  const partner = new Int32Array(count).fill(-1);
  for (let p = 0; p < count; p++) {
    const faulty = (label: number) =>
      behindAir && labels[K * p + label] <= BEFORE ? 0 : weighed[3 * p + label - 1];
    const neutral = faulty(NEUTRAL);
    const opposite = faulty(OPPOSITE);
    const rest = 1 - neutral - opposite;
    const lit = labels[K * p + LIT];
    const shade = labels[K * p + SHADE];
    const share = lit + shade > 0 ? lit / (lit + shade) : 0.5;
    labels[K * p + LIT] = rest * share;
    labels[K * p + SHADE] = rest * (1 - share);
    labels[K * p + NEUTRAL] = neutral;
    labels[K * p + OPPOSITE] = opposite;
    partner[p] = signs.litFor[neutral >= opposite ? 0 : 1][p];
  }
  return partner;
}

import type { Triple } from '../../colour/matrix.ts';
import { shareOfAir, veiled } from './air.ts';
import type { Contacts } from './contacts.ts';
import { depthOf } from './depth.ts';
import { fromLogColour, logColour } from './logColour.ts';
import type { Pieces } from './pieces.ts';
import type { Regions } from './regions.ts';

/** Scale of a miss in log-chromaticity from what the air makes of the darker piece. Our default. */
const MISS = 0.05;
/** The lighter piece stands at least so many pixels higher in the picture: farther off on the ground. Our default. */
const HIGHER = 6;

/**
 * How much each contact looks like one paint near and farther off, 0…1: the lighter piece stands higher, and air of
 * the colour of the horizon before the darker one, I = J·t + A·(1 − t), would give its colour. Where no
 * sky tells the colour of the air, both must belong to a depth that fades over a broad front (`depth.ts`).
 *
 * @param air colour of the sky where it meets the land, linear; null where none is seen
 */
export function recedes(
  regions: Regions,
  pieces: Pieces,
  contacts: Contacts,
  air: Readonly<Triple> | null,
): Float32Array {
  const out = new Float32Array(contacts.count);
  if (!air) {
    const deep = depthOf(regions, pieces);
    for (let c = 0; c < contacts.count; c++)
      out[c] = Math.min(deep[contacts.bright[c]], deep[contacts.dark[c]]);
    return out;
  }
  const height = heightsOf(regions, pieces);
  const horizon = logColour(air[0], air[1], air[2]).l;
  for (let c = 0; c < contacts.count; c++) {
    const i = contacts.bright[c];
    const j = contacts.dark[c];
    if (height[j] - height[i] < HIGHER || pieces.l[i] > horizon) continue;
    const near = fromLogColour({ x: pieces.x[j], y: pieces.y[j], l: pieces.l[j] });
    const far = logColour(...veiled(near, air, shareOfAir(near, air, pieces.l[i])));
    const miss = Math.hypot(far.x - pieces.x[i], far.y - pieces.y[i]);
    out[c] = Math.exp(-0.5 * (miss / MISS) ** 2);
  }
  return out;
}

/** Middle of each piece, pixels from the upper edge. */
function heightsOf(regions: Regions, pieces: Pieces): Float64Array {
  const sum = new Float64Array(pieces.count);
  for (let i = 0; i < regions.count; i++)
    if (pieces.of[i] >= 0) sum[pieces.of[i]] += regions.area[i] * regions.py[i];
  return sum.map((v, p) => v / pieces.area[p]);
}

import type { Contacts } from './contacts.ts';
import { fullChange, opposite, type Ratio, wholeChanges } from './curve.ts';
import type { Pieces } from './pieces.ts';
import type { Potentials } from './potentials.ts';

/** How far each contact's change lies from the relations a light can make; arrays of `contacts.count`. */
export interface Misses {
  /** From lit to shade along the curve, and along the swapped curve. */
  readonly shade: Float32Array;
  readonly opposite: Float32Array;
  /** Chromatic change alone. */
  readonly colour: Float32Array;
  /** Full drop of the light in ℓ. */
  readonly drop: number;
}

export function missesOf(
  contacts: Contacts,
  q: Ratio,
  t: Pick<Potentials, 'along' | 'corner' | 'beyond'>,
): Misses {
  const table = wholeChanges(q);
  const swapped = wholeChanges(opposite(q));
  const n = contacts.count;
  const shade = new Float32Array(n);
  const other = new Float32Array(n);
  const colour = new Float32Array(n);
  for (let c = 0; c < n; c++) {
    const dx = contacts.dx[c];
    const dy = contacts.dy[c];
    const dl = contacts.dl[c];
    colour[c] = Math.hypot(dx, dy);
    shade[c] = nearest(dx, dy, dl, table, t);
    other[c] = nearest(dx, dy, dl, swapped, t);
  }
  return { shade, opposite: other, colour, drop: fullChange(q).l };
}

function nearest(
  dx: number,
  dy: number,
  dl: number,
  table: Float64Array,
  t: Pick<Potentials, 'along' | 'corner' | 'beyond'>,
): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < table.length; i += 3) {
    const a = dx - table[i];
    const b = dy - table[i + 1];
    // Deeper than the curve is a corner the fill does not reach: half as wrong as too shallow, but only so far.
    const off = dl - table[i + 2];
    let c = t.along * off;
    if (off > 0) c = 0.5 * c + t.beyond * Math.max(0, off - t.corner);
    const d = a * a + b * b + c * c;
    if (d < least) least = d;
  }
  return Math.sqrt(least);
}

/** What every contact says: `says` holds shade, neutral, opposite (0…1) for each, `same` a change of pigment only. */
export interface Said {
  readonly says: Float32Array;
  readonly same: Float32Array;
  /** How much it counts for the bright and for the dark piece. */
  readonly toBright: Float32Array;
  readonly toDark: Float32Array;
}

/** What else each contact may be, 0…1: stripes or checks of pigment; one paint near and farther off in the air. */
export interface Unlike {
  readonly pattern: Float32Array;
  readonly recedes: Float32Array;
}

const ramp = (v: number, from: number, width: number) => Math.min(1, Math.max(0, (v - from) / width));

export function hear(
  pieces: Pieces,
  contacts: Contacts,
  misses: Misses,
  { pattern, recedes }: Unlike,
  t: Potentials,
): Said {
  const n = contacts.count;
  const says = new Float32Array(3 * n);
  const same = new Float32Array(n);
  const weight = new Float64Array(n);
  const total = new Float64Array(pieces.count);
  const drop = misses.drop;
  for (let c = 0; c < n; c++) {
    const dl = contacts.dl[c];
    const e = misses.colour[c];
    const deep = Math.exp(-0.5 * Math.max(0, (dl - t.deepest * drop) / 0.3) ** 2);
    const dark = ramp(dl, t.drop * drop, t.dropWidth * drop) * deep;
    const darkN = ramp(dl, t.dropNeutral * drop, t.dropWidth * drop) * deep;
    const plain = 1 / (1 + (pattern[c] / t.pattern) ** 4);
    says[3 * c] = Math.exp(-0.5 * (misses.shade[c] / t.tauShade) ** 2) * dark * ramp(e, 0.04, 0.06);
    // What lies farther off in the air was not lit there, only veiled.
    const solid = plain * (1 - recedes[c]);
    says[3 * c + 1] = Math.exp(-0.5 * (e / t.tauNeutral) ** 2) * darkN * solid;
    says[3 * c + 2] =
      Math.exp(-0.5 * (misses.opposite[c] / t.tauOpposite) ** 2) * dark * solid * ramp(e, 0.06, 0.06);
    same[c] = Math.exp(-0.5 * (e / 0.06) ** 2 - dl / t.texture);
    const coarser = Math.abs(pieces.grain[contacts.bright[c]] - pieces.grain[contacts.dark[c]]);
    const w = contacts.weight[c] / (1 + coarser / t.grain);
    weight[c] = w;
    total[contacts.bright[c]] += w;
    total[contacts.dark[c]] += w;
  }
  const toBright = new Float32Array(n);
  const toDark = new Float32Array(n);
  for (let c = 0; c < n; c++) {
    const a = total[contacts.bright[c]];
    const b = total[contacts.dark[c]];
    toBright[c] = (t.say * weight[c]) / (a ** t.own * b ** (1 - t.own));
    toDark[c] = (t.say * weight[c]) / (b ** t.own * a ** (1 - t.own));
  }
  return { says, same, toBright, toDark };
}

import { fullChange, opposite, type Ratio, wholeChanges } from '../curve.ts';

/** Tolerances in log-chromaticity: along the curve, without colour, along the swapped curve. Our defaults. */
const SHADE = 0.1;
const NEUTRAL = 0.055;
const OPPOSITE = 0.065;
/** A change counts from this share of the light's full drop in ℓ, and fully from so much more. */
const FROM = 0.09;
const WITHIN = 0.05;
const FROM_NEUTRAL = 0.35;
const WITHIN_NEUTRAL = 0.08;
/** Deeper than this multiple of the full drop it is no shade of the same surface any more; nothing from the second on. */
const DEEPEST = 1.7;
const NEVER = 2.4;
/** Of one colour: scales in log-chromaticity and ℓ. */
const SAME = 0.05;
const SAME_L = 0.2;

export const RELATIONS = 3;

/** What a change between two pieces may be in one light; written into `out` as shade, neutral, opposite, each 0…1. */
export interface Relations {
  /** Drop in ℓ and turn of log-chromaticity from full light to full shade. */
  readonly drop: number;
  readonly turn: number;
  /** Unit vector of the turn; 0, 0 for a light without colour. */
  readonly ux: number;
  readonly uy: number;
  /** Changes larger than this in log-chromaticity are none of the three. */
  readonly reach: number;
  /**
   * @param least share of the full drop from which darkening without colour counts
   * @returns whether it may be any of the three; `out` is 0, 0, 0 if not
   */
  tell(out: Float64Array, dx: number, dy: number, dl: number, least?: number): boolean;
  /** How much the two are of one colour, 0…1. */
  same(dx: number, dy: number, dl: number): number;
}

/** Less than this is nothing. */
const NOTHING = 0.02;
/** −2 ln of it: a bell at so many squared scales is nothing. */
const OUTSIDE = -2 * Math.log(NOTHING);

const ramp = (v: number, from: number, width: number) => Math.min(1, Math.max(0, (v - from) / width));
const bell = (squared: number, scale: number) =>
  squared > OUTSIDE * scale * scale ? 0 : Math.exp((-0.5 * squared) / (scale * scale));

/** What changes may be in a light of ratio q = K/A. */
export function relationsOf(q: Ratio): Relations {
  const own = missing(wholeChanges(q), SHADE);
  const swapped = missing(wholeChanges(opposite(q)), OPPOSITE);
  const full = fullChange(q);
  const drop = full.l;
  const turn = Math.hypot(full.x, full.y);
  return {
    drop,
    turn,
    ux: turn > 0 ? full.x / turn : 0,
    uy: turn > 0 ? full.y / turn : 0,
    reach: 1.3 * turn + 0.25,
    tell(out, dx, dy, dl, least = FROM_NEUTRAL) {
      out[0] = 0;
      out[1] = 0;
      out[2] = 0;
      if (dl < FROM * drop || dl > NEVER * drop) return false;
      const colour = dx * dx + dy * dy;
      const deep = Math.exp(-0.5 * (Math.max(0, dl - DEEPEST * drop) / 0.3) ** 2);
      const dark = ramp(dl, FROM * drop, WITHIN * drop) * deep;
      const e = Math.sqrt(colour);
      out[0] = bell(own(dx, dy, dl), SHADE) * dark * ramp(e, 0.04, 0.06);
      out[1] = bell(colour, NEUTRAL) * ramp(dl, least * drop, WITHIN_NEUTRAL * drop) * deep;
      out[2] = bell(swapped(dx, dy, dl), OPPOSITE) * dark * ramp(e, 0.06, 0.06);
      return out[0] + out[1] + out[2] > 0;
    },
    same: (dx, dy, dl) => {
      const squared = (dx * dx + dy * dy) / (SAME * SAME) + (dl * dl) / (SAME_L * SAME_L);
      return squared > OUTSIDE ? 0 : Math.exp(-0.5 * squared);
    },
  };
}

/**
 * Squared distance to the nearest change of a table; deeper than it in ℓ (a corner) counts half, up to a depth.
 * Infinite where it is farther than a bell of that scale reaches.
 */
function missing(table: Float64Array, scale: number): (dx: number, dy: number, dl: number) => number {
  const reach = Math.sqrt(OUTSIDE) * scale;
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let k = 0; k < table.length; k += 3) {
    left = Math.min(left, table[k] - reach);
    right = Math.max(right, table[k] + reach);
    low = Math.min(low, table[k + 1] - reach);
    high = Math.max(high, table[k + 1] + reach);
  }
  return (dx, dy, dl) => {
    let least = Number.POSITIVE_INFINITY;
    if (dx < left || dx > right || dy < low || dy > high) return least;
    for (let k = 0; k < table.length; k += 3) {
      const a = dx - table[k];
      const b = dy - table[k + 1];
      const off = dl - table[k + 2];
      const c = off > 0 ? 0.1 * off + 0.17 * Math.max(0, off - 0.4) : 0.2 * off;
      const d = a * a + b * b + c * c;
      if (d < least) least = d;
    }
    return least;
  };
}

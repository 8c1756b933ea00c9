import {
  changeTable,
  fullChange,
  LEAST_STEP,
  LIT_STEPS,
  opposite,
  type Ratio,
  SHADE_STEPS,
} from '../curve.ts';

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
  /** Unit vector of the turn. */
  readonly ux: number;
  readonly uy: number;
  /** Changes larger than this in log-chromaticity are none of the three. */
  readonly reach: number;
  /** @param least share of the full drop from which darkening without colour counts */
  tell(out: Float64Array, dx: number, dy: number, dl: number, least?: number): void;
  /** How much the two are of one colour, 0…1. */
  same(dx: number, dy: number, dl: number): number;
}

const ramp = (v: number, from: number, width: number) => Math.min(1, Math.max(0, (v - from) / width));
const bell = (squared: number, scale: number) => Math.exp((-0.5 * squared) / (scale * scale));

export function relationsOf(q: Ratio): Relations {
  const own = changeTable(q, SHADE_STEPS, LIT_STEPS, LEAST_STEP);
  const swapped = changeTable(opposite(q), SHADE_STEPS, LIT_STEPS, LEAST_STEP);
  const full = fullChange(q);
  const drop = full.l;
  const turn = Math.hypot(full.x, full.y);
  return {
    drop,
    turn,
    ux: full.x / turn,
    uy: full.y / turn,
    reach: 1.3 * turn + 0.25,
    tell(out, dx, dy, dl, least = FROM_NEUTRAL) {
      out.fill(0);
      if (dl < FROM * drop || dl > NEVER * drop) return;
      const colour = dx * dx + dy * dy;
      const e = Math.sqrt(colour);
      const deep = bell(Math.max(0, dl - DEEPEST * drop) ** 2, 0.3);
      const dark = ramp(dl, FROM * drop, WITHIN * drop) * deep;
      out[0] = bell(missed(own, dx, dy, dl), SHADE) * dark * ramp(e, 0.04, 0.06);
      out[1] = bell(colour, NEUTRAL) * ramp(dl, least * drop, WITHIN_NEUTRAL * drop) * deep;
      out[2] = bell(missed(swapped, dx, dy, dl), OPPOSITE) * dark * ramp(e, 0.06, 0.06);
    },
    same: (dx, dy, dl) => bell(dx * dx + dy * dy, SAME) * bell(dl * dl, SAME_L),
  };
}

/** Squared distance to the nearest change of a table; deeper than it in ℓ (a corner) counts half, up to a depth. */
function missed(table: Float64Array, dx: number, dy: number, dl: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < table.length; k += 3) {
    const a = dx - table[k];
    const b = dy - table[k + 1];
    const off = dl - table[k + 2];
    const c = off > 0 ? 0.1 * off + 0.17 * Math.max(0, off - 0.4) : 0.2 * off;
    const d = a * a + b * b + c * c;
    if (d < least) least = d;
  }
  return least;
}

import { type Tried, tryAll } from './confidence.ts';
import type { Changes, CurveFit } from './curve.ts';
import { logColour } from './logColour.ts';
import type { Pairs } from './pairs.ts';
import type { Regions } from './regions.ts';
import type { Shift } from './types.ts';
import { type Candidate, castVotes, type Votes } from './votes.ts';
import type { Watch } from './watch.ts';

/** Pairs that vote and are fitted lie within this many pixels. */
const RADIUS = 45;
/** A light is stated from this confidence on. */
const CONFIDENT = 0.45;
/** Least of a light at all; `against` in shares of the votes for plain darkening. Our defaults. */
const LEAST = { surfaces: 3.8, colours: 1.8, against: 0.05, fit: 0.15, pairs: 250, share: 0.08 };
/**
 * With so many votes for the light against those for plain darkening, and so much of all that gets darker on its
 * curve, every dark is tinted, whatever it is: flat graphics and toned pictures, not light.
 */
const TONED = { against: 45, share: 0.85 };
/** Another direction with more than half as many surfaces behind it, or as much explained, is a second light. */
const RIVAL = Math.LN2;
/**
 * More than this on one side of grey is no evidence of a light; nor are changes that meet in borders so much more
 * seldom than all others do. Between rendered scenes (most up to 0.92, from 0.77) and abstract pictures; see docs/light.md.
 */
const ONE_SIDED = 0.925;
const LEAST_BORDERS = 0.72;
/** Cosine between a light's shift and the way of the air from which on they can't be told apart; our default. */
const ALONG_AIR = Math.SQRT1_2;

/**
 * Why no light is chosen: another direction says as much; too few changes agree; the air between, one kind of pigment
 * or a blend of colours would do the same.
 */
export type Doubt = 'rival' | 'few' | 'air' | 'pigment' | 'blend';

type Colour = readonly [number, number, number];

export interface Choice {
  readonly votes: Votes;
  /** Null when no candidate passes. */
  readonly candidate: Candidate | null;
  readonly fit: CurveFit | null;
  /** Why none is chosen. */
  readonly doubt: Doubt | null;
  /** Votes for the light against votes for plain darkening. */
  readonly carries: number;
  readonly surfaces: number;
}

/** The changes of all pairs near enough to be fitted. */
export function nearChanges(pairs: Pairs): Changes {
  const near: number[] = [];
  for (let p = 0; p < pairs.count; p++) if (pairs.distance[p] < RADIUS) near.push(p);
  return {
    dx: Float64Array.from(near, (p) => pairs.dx[p]),
    dy: Float64Array.from(near, (p) => pairs.dy[p]),
    dl: Float64Array.from(near, (p) => pairs.dl[p]),
    weight: Float64Array.from(near, (p) => 1 / (pairs.distance[p] + 15)),
  };
}

/**
 * The light of the scene: of the directions that surfaces share, the most probable one (`tryAll`). Null when none is
 * probable enough: then the picture speaks of two lights or of none, and only the artist knows. Null, too, where
 * something else than light would do the same.
 *
 * @param air colour of the air before what is judged, linear; null where none is seen
 */
export function chooseLight(
  regions: Regions,
  valid: Uint8Array,
  pairs: Pairs,
  changes: Changes,
  air: Colour | null,
  watch?: Watch,
): Choice {
  const votes = castVotes(regions, pairs, RADIUS);
  const tried = tryAll(regions, pairs, changes, votes, RADIUS);
  watch?.directions?.(tried);
  const best = tried[0] ?? null;
  const doubt = best ? doubtOf(best) : 'few';
  const shown = best?.candidate ?? votes.candidates[0] ?? null;
  return {
    votes,
    candidate: doubt ? null : shown,
    fit: doubt ? null : best.fit,
    doubt,
    carries: shown ? shown.strength / Math.max(votes.still, 1e-9) : 0,
    surfaces: shown?.surfaces ?? 0,
  };

  function doubtOf({ candidate, fit, shift, sides, signs, confidence }: Tried): Doubt | null {
    if (!enough(candidate, fit, votes) || toned(candidate, fit, votes)) return 'few';
    if (air && alongTheAir(shift, air, regions, valid)) return 'air';
    if (sides.oneSided > ONE_SIDED) return 'pigment';
    if (sides.borders < LEAST_BORDERS) return 'blend';
    if (confidence >= CONFIDENT) return null;
    return Math.min(signs.agreed, signs.explained) < RIVAL ? 'rival' : 'few';
  }
}

function enough({ surfaces, colours, strength }: Candidate, { fit, pairs }: CurveFit, votes: Votes): boolean {
  return (
    surfaces >= LEAST.surfaces &&
    colours >= LEAST.colours &&
    strength >= LEAST.against * votes.still &&
    fit >= LEAST.fit &&
    pairs >= Math.max(LEAST.pairs, LEAST.share * votes.pairs)
  );
}

/** Air in front of what is judged would turn its colours much the way that this light does. */
function alongTheAir(shift: Shift, air: Colour, regions: Regions, valid: Uint8Array): boolean {
  let [sum, x, y] = [0, 0, 0];
  for (let i = 0; i < regions.count; i++) {
    if (!valid[i]) continue;
    sum += regions.area[i];
    x += regions.area[i] * regions.x[i];
    y += regions.area[i] * regions.y[i];
  }
  const to = logColour(air[0], air[1], air[2]);
  const dx = to.x - x / sum;
  const dy = to.y - y / sum;
  return dx * shift.x + dy * shift.y > ALONG_AIR * Math.hypot(dx, dy) * Math.hypot(shift.x, shift.y);
}

function toned({ strength }: Candidate, { pairs }: CurveFit, votes: Votes): boolean {
  return strength > TONED.against * votes.still && pairs > TONED.share * votes.pairs;
}

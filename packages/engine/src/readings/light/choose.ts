import { type Changes, type CurveFit, explained, fitCurve, shiftOf } from './curve.ts';
import { logColour } from './logColour.ts';
import type { Pairs } from './pairs.ts';
import type { Regions } from './regions.ts';
import { sidesOf } from './sides.ts';
import type { Shift } from './types.ts';
import { type Candidate, CELL, castVotes, type Votes } from './votes.ts';

/** Pairs that vote and are fitted lie within this many pixels. */
const RADIUS = 45;
/** Gate of a candidate; our defaults. */
const LEAST_ANTISYMMETRY = 0.6;
const LEAST_AGAINST_STILL = 0.12;
const LEAST_SURFACES = 3.8;
const LEAST_COLOURS = 1.8;
const LEAST_FIT = 0.27;
const LEAST_PAIRS = 300;
/** So much of all changes that could show a light must point the chosen way: less is a coincidence of materials. */
const LEAST_SHARE = 0.1;
/**
 * With so many votes for the light against those for plain darkening, and so much of all that gets darker on its
 * curve, every dark is tinted, whatever it is: flat graphics and toned pictures, not light.
 */
const TONED = { against: 45, share: 0.85 };
/** Two directions that several surfaces share are two lights: with a rival of this share of the best none is chosen. */
const RIVAL = 0.5;
/**
 * A direction that many colours share in a few places each may still explain little of the picture: when another one's
 * curve explains so many times as much, they contradict each other. So many rivals are tried.
 */
const EXPLAINS_MORE = 1.5;
const TRIED = 2;
/**
 * More than this on one side of grey is no evidence of a light; nor are changes that meet in borders so much more
 * seldom than all others do. Between rendered scenes (up to 0.92, from 0.77) and abstract pictures; see docs/light.md.
 */
const ONE_SIDED = 0.95;
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
 * The light of the scene: of the directions that surfaces share, the one with most votes from most surfaces and
 * fewest against it. Null when another comes near: then the picture speaks of two lights, and which one is the
 * scene's only the artist knows. Null, too, where something else than light would do the same.
 *
 * @param air colour of the air before what is judged, linear; null where none is seen
 */
export function chooseLight(
  regions: Regions,
  valid: Uint8Array,
  pairs: Pairs,
  changes: Changes,
  air: Colour | null,
): Choice {
  const votes = castVotes(regions, pairs, RADIUS);
  const ranked = votes.candidates
    .map((candidate) => ({ candidate, score: scoreOf(candidate) }))
    .sort((a, b) => b.score - a.score);
  const best = ranked[0] ?? null;
  const near = ranked.length > 1 && ranked[1].score > RIVAL * best.score;
  const fit = best && !near && passes(best.candidate, votes) ? fitCurve(changes, best.candidate) : null;
  const doubt = doubtOf();
  return {
    votes,
    candidate: doubt ? null : best.candidate,
    fit: doubt ? null : fit,
    doubt,
    carries: best ? best.candidate.strength / Math.max(votes.still, 1e-9) : 0,
    surfaces: best?.candidate.surfaces ?? 0,
  };

  function doubtOf(): Doubt | null {
    if (near) return 'rival';
    if (!fit || !enough(fit, votes) || toned(best.candidate, fit, votes)) return 'few';
    const rivals = ranked.slice(1, 1 + TRIED).map((r) => r.candidate);
    if (outdone(fit, rivals, changes)) return 'rival';
    const shift = shiftOf(fit.q, changes);
    if (air && alongTheAir(shift, air, regions, valid)) return 'air';
    const { oneSided, borders } = sidesOf(regions, pairs, RADIUS, CELL, fit.q, shift);
    return oneSided > ONE_SIDED ? 'pigment' : borders < LEAST_BORDERS ? 'blend' : null;
  }
}

function enough({ fit, pairs }: CurveFit, votes: Votes): boolean {
  return fit >= LEAST_FIT && pairs >= Math.max(LEAST_PAIRS, LEAST_SHARE * votes.pairs);
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

/** One of the rivals explains far more of the picture than the chosen curve. */
function outdone(chosen: CurveFit, rivals: readonly Candidate[], changes: Changes): boolean {
  const own = explained(chosen.q, changes);
  return rivals.some((rival) => {
    const fit = fitCurve(changes, rival);
    return fit !== null && explained(fit.q, changes) > EXPLAINS_MORE * own;
  });
}

function toned({ strength }: Candidate, { pairs }: CurveFit, votes: Votes): boolean {
  return strength > TONED.against * votes.still && pairs > TONED.share * votes.pairs;
}

function scoreOf({ strength, surfaces, antisymmetry }: Candidate): number {
  return strength * surfaces * antisymmetry;
}

function passes({ antisymmetry, surfaces, colours, strength }: Candidate, votes: Votes): boolean {
  return (
    antisymmetry >= LEAST_ANTISYMMETRY &&
    surfaces >= LEAST_SURFACES &&
    colours >= LEAST_COLOURS &&
    strength >= LEAST_AGAINST_STILL * votes.still
  );
}

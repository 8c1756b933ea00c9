import { type Changes, type CurveFit, fitCurve } from './curve.ts';
import type { Pairs } from './pairs.ts';
import type { Regions } from './regions.ts';
import { type Candidate, castVotes, type Votes } from './votes.ts';

/** Pairs that vote and are fitted lie within this many pixels. */
const RADIUS = 45;
/** Gate of a candidate; our defaults. */
const LEAST_ANTISYMMETRY = 0.6;
const LEAST_AGAINST_STILL = 0.12;
const LEAST_SURFACES = 3.8;
const LEAST_COLOURS = 1.8;
const LEAST_FIT = 0.27;
const LEAST_PAIRS = 300;
/**
 * With so many votes for the light against those for plain darkening, and so much of all that gets darker on its
 * curve, every dark is tinted, whatever it is: flat graphics and toned pictures, not light.
 */
const TONED = { against: 45, share: 0.85 };
/** Two directions that several surfaces share are two lights: with a rival of this share of the best none is chosen. */
const RIVAL = 0.5;

export interface Choice {
  readonly votes: Votes;
  /** Null when no candidate passes. */
  readonly candidate: Candidate | null;
  readonly fit: CurveFit | null;
  /** Two directions are shared by about as many surfaces. */
  readonly contested: boolean;
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
 * scene's only the artist knows.
 */
export function chooseLight(regions: Regions, pairs: Pairs, changes: Changes): Choice {
  const votes = castVotes(regions, pairs, RADIUS);
  const ranked = votes.candidates
    .map((candidate) => ({ candidate, score: scoreOf(candidate) }))
    .sort((a, b) => b.score - a.score);
  const best = ranked[0] ?? null;
  const contested = ranked.length > 1 && ranked[1].score > RIVAL * best.score;
  const fit = best && !contested && passes(best.candidate, votes) ? fitCurve(changes, best.candidate) : null;
  const chosen =
    fit !== null && fit.fit >= LEAST_FIT && fit.pairs >= LEAST_PAIRS && !toned(best.candidate, fit, votes);
  return {
    votes,
    candidate: chosen ? best.candidate : null,
    fit: chosen ? fit : null,
    contested,
    carries: best ? best.candidate.strength / Math.max(votes.still, 1e-9) : 0,
    surfaces: best?.candidate.surfaces ?? 0,
  };
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

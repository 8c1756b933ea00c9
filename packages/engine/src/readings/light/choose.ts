import { type Changes, type CurveFit, fitCurve } from './curve.ts';
import type { Pairs } from './pairs.ts';
import type { Regions } from './regions.ts';
import { type Candidate, castVotes, type Votes } from './votes.ts';

/** Pairs that vote and are fitted lie within this many pixels. */
const RADIUS = 45;
/** Gate of a candidate; our defaults. */
const LEAST_ANTISYMMETRY = 0.6;
const LEAST_AGAINST_STILL = 0.12;
const LEAST_SURFACES = 2.5;
const LEAST_FIT = 0.15;
/** A candidate weaker than this share of the strongest is not looked at. */
const LEAST_SHARE = 0.2;

export interface Choice {
  readonly votes: Votes;
  /** Null when no candidate passes. */
  readonly candidate: Candidate | null;
  readonly fit: CurveFit | null;
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

/** The light of the scene: of the directions that several surfaces share, the one whose curve explains most pairs. */
export function chooseLight(regions: Regions, pairs: Pairs, changes: Changes): Choice {
  const votes = castVotes(regions, pairs, RADIUS);
  let best: { candidate: Candidate; fit: CurveFit } | null = null;
  for (const candidate of votes.candidates) {
    if (candidate.strength < LEAST_SHARE * votes.candidates[0].strength) break;
    if (candidate.antisymmetry < LEAST_ANTISYMMETRY || candidate.surfaces < LEAST_SURFACES) continue;
    if (candidate.strength < LEAST_AGAINST_STILL * votes.still) continue;
    const fit = fitCurve(changes, candidate);
    if (!fit || fit.fit < LEAST_FIT) continue;
    if (best === null || fit.fit * fit.pairs > best.fit.fit * best.fit.pairs) best = { candidate, fit };
  }
  const strongest = best?.candidate ?? votes.candidates[0];
  return {
    votes,
    candidate: best?.candidate ?? null,
    fit: best?.fit ?? null,
    carries: strongest ? strongest.strength / Math.max(votes.still, 1e-9) : 0,
    surfaces: strongest?.surfaces ?? 0,
  };
}

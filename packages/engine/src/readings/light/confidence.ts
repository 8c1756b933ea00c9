import { type Changes, type CurveFit, explained, fitCurve, shiftOf } from './curve.ts';
import type { Pairs } from './pairs.ts';
import type { Regions } from './regions.ts';
import { type Sides, sidesOf } from './sides.ts';
import type { Shift } from './types.ts';
import { type Candidate, CELL, type Votes } from './votes.ts';

/** A direction with its curve and all that speaks for it. */
export interface Tried {
  readonly candidate: Candidate;
  readonly fit: CurveFit;
  readonly shift: Shift;
  readonly sides: Sides;
  /**
   * What is weighed: the fit, its share of all that could be explained (logarithm), one-sidedness, the number of pairs
   * (logarithm), and how many times as much as the best of the others it has (logarithms) of surfaces that agree, of
   * strength, of what it explains.
   */
  readonly signs: Signs;
  /** Probability that the light of the scene goes this way and no other, 0…1. */
  readonly confidence: number;
}

/**
 * Log-odds that a direction is that of the light: a bias, and a weight for each of its signs, by logistic regression on
 * rendered scenes that no figure is reported for (`bench/src/light/train`). What counts most is how much of all
 * changes its curve explains, and how many more surfaces agree on it than on any other; changes on one side of grey,
 * and a great many pairs, count against it.
 */
const BIAS = 16.794;
const WEIGHTS = {
  fit: -1.794,
  agreed: 1.465,
  strength: -0.156,
  explained: 0.46,
  share: 1.33,
  oneSided: -5.544,
  pairs: -0.93,
};
type Signs = Readonly<Record<keyof typeof WEIGHTS, number>>;
/** Odds, among those of all directions, that none of them is the light's. Our default, from the same scenes. */
const NONE = 0.6;
/** Ratios to the best of the others count up to e to this power; it stands for a direction without a rival. */
const FAR_AHEAD = 3;

/** All directions that have a curve, the most probable first. */
export function tryAll(
  regions: Regions,
  pairs: Pairs,
  changes: Changes,
  votes: Votes,
  radius: number,
): Tried[] {
  let total = 0;
  for (let i = 0; i < changes.weight.length; i++) total += changes.weight[i];
  const fitted = votes.candidates.flatMap((candidate) => {
    const fit = fitCurve(changes, candidate);
    return fit ? [{ candidate, fit, explained: explained(fit.q, changes) }] : [];
  });
  const tried = fitted.map((one) => {
    const ahead = (of: (other: (typeof fitted)[number]) => number) => {
      const others = fitted.filter((other) => other !== one).map(of);
      return others.length > 0 ? bounded(log(of(one)) - log(Math.max(...others))) : FAR_AHEAD;
    };
    const shift = shiftOf(one.fit.q, changes);
    const sides = sidesOf(regions, pairs, radius, CELL, one.fit.q, shift);
    const signs: Signs = {
      fit: one.fit.fit,
      agreed: ahead(({ candidate }) => candidate.surfaces * candidate.antisymmetry),
      strength: ahead(({ candidate }) => candidate.strength),
      explained: ahead((other) => other.explained),
      share: log(one.explained / total),
      oneSided: sides.oneSided,
      pairs: log(votes.pairs),
    };
    return { ...one, shift, sides, signs, odds: oddsOf(signs) };
  });
  const sum = tried.reduce((s, { odds }) => s + odds, NONE);
  return tried
    .map((one) => ({ ...one, confidence: one.odds / sum }))
    .sort((a, b) => b.confidence - a.confidence);
}

function oddsOf(signs: Signs): number {
  let log = BIAS;
  for (const name of Object.keys(WEIGHTS) as (keyof Signs)[]) log += WEIGHTS[name] * signs[name];
  return Math.exp(log);
}

const log = (v: number) => Math.log(Math.max(v, 1e-6));
const bounded = (v: number) => Math.min(FAR_AHEAD, Math.max(-FAR_AHEAD, v));

import type { Evidence } from '../reading.ts';
import type { Ratio } from './curve.ts';
import type { LightPlace, LightResult, Shift, Statement } from './types.ts';

/** The light reading as plain data, as `check --json` prints it. */
export interface LightValue {
  readonly statement: Statement;
  /** True when the light was declared in the intent, not read. */
  readonly declared: boolean;
  /** Lit minus shade in log-chromaticity; null when unknown or without colour. */
  readonly shift: Shift | null;
  /** Lit side warmer (+) or cooler (−); null for coloured light. */
  readonly mired: number | null;
  /** OKLCh hue of the lit side of a grey thing whose shade is grey, degrees. */
  readonly hue: number | null;
  /** Length of `shift`. */
  readonly strength: number | null;
  /** Key over fill per channel, K/A; null without a light. */
  readonly q: Ratio | null;
  readonly supportingSurfaces: number;
  /** Shares of the whole area. */
  readonly neutralShare: number;
  readonly oppositeShare: number;
  /** Shade that could be judged, as a share of the whole area. */
  readonly shadedShare: number;
  /** How much of the judged shade follows the light, 0–100 %; null when unknown. */
  readonly carriedPercent: number | null;
  /** Angle between the light that is declared and the one that is read, degrees; null when one is missing. */
  readonly turnedBy: number | null;
  readonly places: readonly PlaceValue[];
}

export interface PlaceValue extends Omit<LightPlace, 'evidence' | 'probability' | 'partners' | 'regions'> {
  readonly evidence: Evidence['level'];
}

/** What is kept of a result: everything but its maps and its trace. */
export function lightValue(result: LightResult): LightValue {
  const { statement, declared, shift, mired, hue, strength, q, supportingSurfaces } = result;
  return {
    statement,
    declared,
    shift,
    mired,
    hue,
    strength,
    q,
    supportingSurfaces,
    neutralShare: result.neutralShare,
    oppositeShare: result.oppositeShare,
    shadedShare: result.shadedShare,
    carriedPercent: result.carriedPercent,
    turnedBy: result.turnedBy,
    places: result.places.map(({ evidence, probability, partners, regions, ...place }) => ({
      ...place,
      evidence: evidence.level,
    })),
  };
}

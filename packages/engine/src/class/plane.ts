import { liesApart, modifiedScores, SERIES_NEEDED } from './statistics.ts';

/** Where works lie by two numbers. */
export interface SeriesPlane {
  /** In shares of the plane from its lower left corner; null for a work without one of the numbers. */
  readonly places: readonly ({ readonly x: number; readonly y: number } | null)[];
  /** Range that the plane covers, in the numbers' own units. */
  readonly across: readonly [from: number, to: number];
  readonly up: readonly [from: number, to: number];
  /** Places of the works that stand alone: much further from their nearest neighbour than the others from theirs. */
  readonly alone: readonly number[];
}

/** Room at the ends of an axis, in shares of its range. */
const RIM = 0.08;

/**
 * Puts works on a plane by two numbers.
 *
 * @param across, up one number per work; null where it has none
 */
export function seriesPlane(across: readonly (number | null)[], up: readonly (number | null)[]): SeriesPlane {
  const [x, y] = [rangeOf(across), rangeOf(up)];
  const places = across.map((a, k) => {
    const b = up[k];
    if (a === null || b === null) return null;
    return { x: (a - x[0]) / (x[1] - x[0]), y: (b - y[0]) / (y[1] - y[0]) };
  });
  return { places, across: x, up: y, alone: aloneIn(across, up) };
}

function rangeOf(values: readonly (number | null)[]): [number, number] {
  const held = values.filter((value) => value !== null);
  const [low, high] = held.length > 0 ? [Math.min(...held), Math.max(...held)] : [0, 1];
  const room = (high - low) * RIM || 0.5;
  return [low - room, high + room];
}

/** Who stands alone, both numbers counted in robust standard deviations so that neither rules the other. */
function aloneIn(across: readonly (number | null)[], up: readonly (number | null)[]): number[] {
  const [x, y] = [modifiedScores(across), modifiedScores(up)];
  const nearest = x.map((a, k) => {
    const b = y[k];
    if (a === null || b === null) return null;
    let least = Number.POSITIVE_INFINITY;
    for (const [other, c] of x.entries()) {
      const d = y[other];
      if (other !== k && c !== null && d !== null) least = Math.min(least, Math.hypot(a - c, b - d));
    }
    return Number.isFinite(least) ? least : null;
  });
  if (nearest.filter((distance) => distance !== null).length < SERIES_NEEDED) return [];
  const scores = modifiedScores(nearest);
  // Nearer to the others than one standard deviation nobody is alone, however close the rest may be.
  return scores.flatMap((score, k) =>
    liesApart(score) && (score ?? 0) > 0 && (nearest[k] ?? 0) > 1 ? [k] : [],
  );
}

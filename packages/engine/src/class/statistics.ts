/** Where one number of many works lies. All in the number's own unit. */
export interface SeriesStatistics {
  /** Works that have the number. */
  readonly count: number;
  readonly median: number;
  readonly low: number;
  readonly high: number;
  /** Median of the distances from the median. */
  readonly mad: number;
  /** Places of the works that lie apart from the others, rising; empty below `SERIES_NEEDED` works. */
  readonly apart: readonly number[];
}

/** Fewer works than this are no series: nothing can be said of who lies apart. Our default. */
export const SERIES_NEEDED = 5;

/** Modified z-scores beyond this lie apart: Iglewicz & Hoaglin 1993, "How to detect and handle outliers", p. 12. */
const APART = 3.5;
/** Make both spreads estimate the standard deviation of a normal distribution (the same source, pp. 11–12). */
const MAD_SCALE = 1.4826;
const MEAN_SCALE = 1.253314;

/**
 * Median, range and those that lie apart, by the median absolute deviation; where more than half of the works have
 * the same number, by the mean absolute deviation.
 *
 * @param values one per work; null where a work has none
 * @returns null when no work has the number
 */
export function seriesStatistics(values: readonly (number | null)[]): SeriesStatistics | null {
  const held = values.filter((value) => value !== null && Number.isFinite(value)) as number[];
  if (held.length === 0) return null;
  const scores = modifiedScores(values);
  return {
    count: held.length,
    median: medianOf(held),
    low: Math.min(...held),
    high: Math.max(...held),
    mad: madOf(held),
    apart:
      held.length < SERIES_NEEDED
        ? []
        : scores.flatMap((score, k) => (score !== null && Math.abs(score) > APART ? [k] : [])),
  };
}

/** Distance of each number from the median in robust standard deviations; 0 for all when they are equal. */
export function modifiedScores(values: readonly (number | null)[]): (number | null)[] {
  const held = values.filter((value) => value !== null && Number.isFinite(value)) as number[];
  const middle = medianOf(held);
  const mad = madOf(held);
  const spread =
    mad > 0
      ? MAD_SCALE * mad
      : (MEAN_SCALE * held.reduce((sum, v) => sum + Math.abs(v - middle), 0)) / held.length;
  return values.map((value) =>
    value === null || !Number.isFinite(value) ? null : spread > 0 ? (value - middle) / spread : 0,
  );
}

/** The middle number, or the mean of the two in the middle; NaN of none. */
export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

function madOf(values: readonly number[]): number {
  const middle = medianOf(values);
  return medianOf(values.map((value) => Math.abs(value - middle)));
}

/** True when a modified score says that a work lies apart. */
export const liesApart = (score: number | null): boolean => score !== null && Math.abs(score) > APART;

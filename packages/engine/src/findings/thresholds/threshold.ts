import type { Baseline } from '../../intent/baseline.ts';
import type { Origin } from '../finding.ts';

/**
 * From where on a number is a finding, and where it weighs heavily. `strong` below `from` means that small
 * numbers are the trouble.
 */
export interface Threshold {
  readonly from: number;
  readonly strong: number;
  readonly origin: Origin;
}

/** Fewer finished works than this say nothing about what is usual. */
export const WORKS_NEEDED = 5;

/**
 * How far a number is off, 0…1: 0 on the good side of the threshold, 0.2 at it, 0.6 at `strong`, towards 1 beyond;
 * without a jump in its slope, so that a small change of the picture is a small change of the rank.
 */
export function severityOf(value: number, { from, strong }: Pick<Threshold, 'from' | 'strong'>): number {
  const t = (value - from) / (strong - from);
  if (!(t >= 0)) return 0;
  return t <= 1 ? 0.2 + 0.4 * t : 1 - 0.4 * Math.exp(1 - t);
}

/**
 * A threshold moved by the artist's own finished works: what nine of ten of them reach is no finding.
 *
 * @param measure its name in the baseline, e.g. "hueSpread.effectiveHues"
 * @param unit one unit of the measure in units of the threshold: 0.01 where the measure is in percent
 */
export function forArtist(
  threshold: Threshold,
  baseline: Baseline | null,
  measure: string,
  unit = 1,
): Threshold {
  const range = usualRange(baseline, measure);
  if (!range) return threshold;
  const rising = threshold.strong > threshold.from;
  const own = unit * (rising ? range.p90 : range.p10);
  if (rising ? own <= threshold.from : own >= threshold.from) return threshold;
  return {
    from: own,
    strong: own + threshold.strong - threshold.from,
    origin: {
      kind: 'baseline',
      text: `nine of ten of your ${baseline!.works} finished works stay ${rising ? 'below' : 'above'} this`,
    },
  };
}

/** Where the artist's finished works lie, or null when there are too few of them. */
export function usualRange(
  baseline: Baseline | null,
  measure: string,
): { readonly p10: number; readonly p50: number; readonly p90: number } | null {
  if (!baseline || baseline.works < WORKS_NEEDED) return null;
  return baseline.measures[measure] ?? null;
}

/** Where a number stands beside the artist's own works. */
export interface Unusual {
  readonly direction: 'more' | 'less';
  /** 0…0.4: out of the ordinary is no fault. */
  readonly severity: number;
  readonly origin: Origin;
  /** "usually 1.4 to 2.8". */
  readonly range: string;
}

/** Tells when a number lies well outside what is usual for the artist (a quarter of the usual range beyond it). */
export function unusualFor(
  value: number | null,
  baseline: Baseline | null,
  measure: string,
  digits: number,
): Unusual | null {
  const range = usualRange(baseline, measure);
  if (!range || value === null) return null;
  const width = Math.max(range.p90 - range.p10, 1e-9);
  const beyond = Math.max(value - range.p90, range.p10 - value) / width;
  if (beyond < 0.25) return null;
  return {
    direction: value > range.p90 ? 'more' : 'less',
    severity: 0.4 * (1 - Math.exp(-beyond)),
    origin: { kind: 'baseline', text: `your ${baseline!.works} finished works` },
    range: `usually ${range.p10.toFixed(digits)} to ${range.p90.toFixed(digits)}`,
  };
}

import type { MoodAxis, MoodTargets } from './intent.ts';
import { MOOD_AXES, MOOD_AXIS_NAMES } from './moodAxes.ts';

/** Where a picture lies on the axes; null where an axis has no meaning for it. */
export type MoodMeasures = Readonly<Record<MoodAxis, number | null>>;

/** How far a picture is from the intended mood. */
export interface MoodDistance {
  /** Root of the weighted mean square over the axes, in steps beyond the tolerance. */
  readonly total: number;
  /** Steps beyond the tolerance per axis, signed: positive where the picture has more than intended. */
  readonly axes: Readonly<Partial<Record<MoodAxis, number>>>;
}

/**
 * Distance from a mood, per axis in steps (a step is about the standard deviation of pictures on it), 0 within the
 * tolerance. Axes without a target or without a measure do not count. Null when none is left.
 */
export function moodDistance(
  measures: MoodMeasures,
  targets: MoodTargets,
  weights: Readonly<Partial<Record<MoodAxis, number>>> = {},
): MoodDistance | null {
  const axes: Partial<Record<MoodAxis, number>> = {};
  let sum = 0;
  let total = 0;
  for (const axis of MOOD_AXIS_NAMES) {
    const target = targets[axis];
    const value = measures[axis];
    const weight = weights[axis] ?? 1;
    if (!target || value === null || !(weight > 0)) continue;
    const steps = stepsBeyond(axis, value, target.at, target.tolerance);
    axes[axis] = steps;
    sum += weight * steps * steps;
    total += weight;
  }
  return total > 0 ? { total: Math.sqrt(sum / total), axes } : null;
}

/** Signed steps by which a value lies beyond at ± tolerance. */
export function stepsBeyond(axis: MoodAxis, value: number, at: number, tolerance: number): number {
  const { scale, step } = MOOD_AXES[axis];
  const low = at - tolerance;
  const high = at + tolerance;
  if (value >= low && value <= high) return 0;
  const border = value > high ? high : low;
  if (scale === 'linear') return (value - border) / step;
  // Ratios need something above zero on both sides.
  return Math.log(Math.max(value, 0.05) / Math.max(border, 0.05)) / Math.log(step);
}

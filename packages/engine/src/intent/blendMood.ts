import type { AxisTarget, MoodAxis, MoodExample, MoodIntent, MoodTargets } from './intent.ts';
import { MOOD_AXES, MOOD_AXIS_NAMES } from './moodAxes.ts';
import { placeOf } from './moodWords.ts';

/**
 * Targets that stand for several words and examples together: per axis the mean place of those that say something
 * about it. The tolerance is the mean one, or as wide as they disagree.
 */
export function blendMood(mood: Pick<MoodIntent, 'words' | 'ownWords' | 'examples'>): MoodTargets {
  const targets = [
    ...(mood.words ?? []).map((word) => placeOf(word, mood.ownWords) ?? {}),
    ...(mood.examples ?? []).map(targetsOf),
  ];
  const out: Partial<Record<MoodAxis, AxisTarget>> = {};
  for (const axis of MOOD_AXIS_NAMES) {
    const given = targets.map((t) => t[axis]).filter((t) => t !== undefined);
    if (given.length > 0) out[axis] = meet(given);
  }
  return out;
}

/** An example's place on the axes as targets, with the usual tolerance. */
function targetsOf({ measures }: MoodExample): MoodTargets {
  const out: Partial<Record<MoodAxis, AxisTarget>> = {};
  for (const axis of MOOD_AXIS_NAMES) {
    const value = measures[axis];
    if (value !== undefined) out[axis] = { at: value, tolerance: MOOD_AXES[axis].tolerance };
  }
  return out;
}

function meet(given: readonly AxisTarget[]): AxisTarget {
  const mean = (of: (t: AxisTarget) => number): number =>
    given.reduce((sum, t) => sum + of(t), 0) / given.length;
  const at = mean((t) => t.at);
  const spread = Math.sqrt(mean((t) => (t.at - at) ** 2));
  return {
    at,
    tolerance: Math.max(
      mean((t) => t.tolerance),
      spread,
    ),
  };
}

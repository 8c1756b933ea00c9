import { censusOfView } from '../census/ofView.ts';
import type { LiveNumber } from '../edits/liveMeasures.ts';
import { type Intent, OPEN_INTENT } from '../intent/intent.ts';
import { moodDistance } from '../intent/moodDistance.ts';
import { readingInput } from '../readings/input.ts';
import { READINGS } from '../readings/list.ts';
import type { MoodValue } from '../readings/mood/types.ts';
import type { ReadingId } from '../readings/reading.ts';
import { viewsOf } from '../views/makeViews.ts';
import { reduceView } from '../views/resample.ts';
import type { View } from '../views/view.ts';

/** The numbers that say what a layer does to the picture, by reading. */
const SAID: Readonly<Partial<Record<ReadingId, readonly string[]>>> = {
  hueSpread: ['effectiveHues', 'spanDegrees'],
  headroom: ['exposureUp', 'exposureDown', 'chromaGain'],
  mood: ['warmCool', 'heavyLight', 'activePassive', 'key', 'contrast'],
};
/** Long side of the copies that are read. Our default: colours of the whole count here, not single pixels. */
export const READ_LONG_SIDE = 160;

/** A small picture in numbers. */
export interface SmallMeasures {
  readonly numbers: readonly LiveNumber[];
  /** Steps from the intended mood; null when none is intended. */
  readonly distance: number | null;
}

/**
 * Mood, hue spread and headroom of a small picture. Only to compare pictures of one size: averages have fewer
 * extremes than the painting. Softness of edges needs the close view and does not count.
 */
export function measureSmall(view: View, intent: Intent = OPEN_INTENT): SmallMeasures {
  const small = reduceView(view, READ_LONG_SIDE);
  const { width, height, scale } = small;
  const picture = {
    name: '',
    width: Math.round(width / scale),
    height: Math.round(height / scale),
    depth: 16 as const,
    profile: '',
    tagged: true,
  };
  const input = readingInput({ picture, census: censusOfView(small, null), views: viewsOf(small), intent });
  let distance: number | null = null;
  const numbers = READINGS.flatMap((kind): LiveNumber[] => {
    const keys = SAID[kind.id];
    if (!keys) return [];
    const { value } = kind.read(input);
    if (kind.id === 'mood' && intent.mood) {
      const measures = { ...(value as MoodValue), softness: null };
      distance = moodDistance(measures, intent.mood.axes, intent.mood.weights)?.total ?? null;
    }
    return kind.measures
      .filter(({ key }) => keys.includes(key))
      .map(({ key, get }) => ({ reading: kind.id, key, value: get(value) }));
  });
  return { numbers, distance };
}

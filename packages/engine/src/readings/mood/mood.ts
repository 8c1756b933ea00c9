import { MOOD_AREA } from '../../findings/thresholds/mood.ts';
import { MOOD_AXES } from '../../intent/moodAxes.ts';
import type { Evidence, Measure, Reading, ReadingInput, ReadingKind } from '../reading.ts';
import { drawMood } from './draw.ts';
import { moodFindings, moodFine } from './findings.ts';
import { measureMood } from './measure.ts';
import type { MoodValue } from './types.ts';

const axis = (key: keyof typeof MOOD_AXES): Measure<MoodValue> => ({
  key,
  label: MOOD_AXES[key].title,
  unit: MOOD_AXES[key].unit,
  digits: MOOD_AXES[key].digits,
  get: (v) => v[key],
});

/** Reading 6: where the picture lies on the axes of mood, and how far from the mood that was decided. */
export const mood: ReadingKind<MoodValue> = {
  id: 'mood',
  title: 'Mood',
  about: 'Where the picture lies on the axes of mood, against the mood you decided.',
  sources: [
    'Ou, Luo, Woodcock & Wright 2004, colour emotion: warm–cool, heavy–light, active–passive (single colours; here their mean)',
    'Valdez & Mehrabian 1994: pleasure, arousal, dominance (only to compare two versions)',
    'Zhuo & Sim 2011, width of edges',
  ],
  measures: [
    axis('warmCool'),
    { key: 'warmCoolSpread', label: 'warm against cool', unit: '', digits: 2, get: (v) => v.warmCoolSpread },
    axis('heavyLight'),
    axis('activePassive'),
    axis('key'),
    axis('contrast'),
    axis('hueSpread'),
    axis('softness'),
    { key: 'pleasure', label: 'pleasure', unit: '', digits: 2, get: (v) => v.pleasure },
    { key: 'arousal', label: 'arousal', unit: '', digits: 2, get: (v) => v.arousal },
    { key: 'dominance', label: 'dominance', unit: '', digits: 2, get: (v) => v.dominance },
    {
      key: 'distance',
      label: 'distance from the mood',
      unit: 'steps',
      digits: 2,
      get: (v) => v.distance?.total ?? null,
    },
  ],
  mapFiles: {},
  needs: (intent) => intent.mood,
  read: (input): Reading<MoodValue> => ({ value: measureMood(input), evidence: evidenceOf(input), maps: {} }),
  findings: moodFindings,
  fine: moodFine,
  draw: drawMood,
};

function evidenceOf({ census }: ReadingInput): Evidence {
  if (census.count === 0) return { level: 'weak', reason: 'The picture is transparent throughout.' };
  if (census.area < MOOD_AREA.weak)
    return { level: 'weak', reason: 'The picture is too small to carry a mood that can be read.' };
  if (census.area < MOOD_AREA.fair) return { level: 'fair', reason: 'The picture is small.' };
  return {
    level: 'fair',
    reason: 'The axes come from patches of colour; what the picture shows is not read.',
  };
}

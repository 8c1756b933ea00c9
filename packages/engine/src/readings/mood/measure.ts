import type { Census } from '../../census/census.ts';
import { linearToCielab } from '../../colour/cielab.ts';
import type { MoodExample } from '../../intent/intent.ts';
import { MOOD_AXIS_NAMES } from '../../intent/moodAxes.ts';
import { type MoodMeasures, moodDistance } from '../../intent/moodDistance.ts';
import { censusFor } from '../censusFor.ts';
import { hueSpreadOf } from '../hueSpread/measure.ts';
import type { ReadingInput } from '../reading.ts';
import { tonalityOf, tonalView } from '../value/measure.ts';
import { activePassive, heavyLight, pad, warmCoolOf } from './emotion.ts';
import { munsellChroma, munsellValue } from './munsell.ts';
import { edgeSoftness } from './softness.ts';
import type { MoodValue } from './types.ts';

/** All numbers of the mood reading. */
export function measureMood(input: ReadingInput): MoodValue {
  const census = censusFor(input);
  const tonality = tonalityOf(tonalView(input.views.whole, input.leftOut));
  const measures = {
    ...emotionOf(census),
    key: tonality ? tonality.key : null,
    contrast: tonality ? tonality.high - tonality.low : null,
    hueSpread: hueSpreadOf(census),
    softness: edgeSoftness(input.views.close, input.leftOut),
  };
  const { mood } = input.intent;
  return { ...measures, distance: mood ? moodDistance(measures, mood.axes, mood.weights) : null };
}

type Emotion = Pick<
  MoodValue,
  'warmCool' | 'warmCoolSpread' | 'heavyLight' | 'activePassive' | 'pleasure' | 'arousal' | 'dominance'
>;

const NO_EMOTION: Emotion = {
  warmCool: null,
  warmCoolSpread: null,
  heavyLight: null,
  activePassive: null,
  pleasure: null,
  arousal: null,
  dominance: null,
};

/**
 * Area-weighted means of the emotion of each colour: the emotion of several colours is that of each in turn
 * averaged, not that of their mean (Ou et al. 2004, part II, found it additive for pairs).
 */
export function emotionOf({ count, share, rgb }: Census): Emotion {
  if (count === 0) return NO_EMOTION;
  let warm = 0;
  let warm2 = 0;
  let lightnessSum = 0;
  let active = 0;
  let value = 0;
  let munsell = 0;
  for (let i = 0; i < count; i++) {
    const w = share[i];
    const [L, a, b] = linearToCielab([rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]]);
    const chroma = Math.sqrt(a * a + b * b);
    const wc = warmCoolOf(a, b, chroma);
    warm += w * wc;
    warm2 += w * wc * wc;
    lightnessSum += w * L;
    active += w * activePassive(L, chroma);
    value += w * munsellValue(L);
    munsell += w * munsellChroma(chroma);
  }
  return {
    warmCool: warm,
    warmCoolSpread: Math.sqrt(Math.max(0, warm2 - warm * warm)),
    // These are straight lines, so that the mean may be taken first.
    heavyLight: heavyLight(lightnessSum),
    activePassive: active,
    ...pad(value, munsell),
  };
}

/** What is kept of a picture so that its mood can be meant later. */
export function moodExample(name: string, input: ReadingInput): MoodExample {
  const measured: MoodMeasures = measureMood(input);
  const measures: Record<string, number> = {};
  for (const axis of MOOD_AXIS_NAMES) {
    const value = measured[axis];
    if (value !== null) measures[axis] = value;
  }
  return { name, ...momentsOf(censusFor(input)), measures };
}

function momentsOf({ count, share, lab }: Census): Pick<MoodExample, 'mean' | 'covariance'> {
  const mean: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < count; i++) for (let c = 0; c < 3; c++) mean[c] += share[i] * lab[3 * i + c];
  const covariance: [number, number, number, number, number, number] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < count; i++) {
    const l = lab[3 * i] - mean[0];
    const a = lab[3 * i + 1] - mean[1];
    const b = lab[3 * i + 2] - mean[2];
    [l * l, l * a, l * b, a * a, a * b, b * b].forEach((v, k) => {
      covariance[k] += share[i] * v;
    });
  }
  return { mean, covariance };
}

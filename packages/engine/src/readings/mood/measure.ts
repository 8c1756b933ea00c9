import type { Census } from '../../census/census.ts';
import { linearToCielab } from '../../colour/cielab.ts';
import type { MoodExample } from '../../intent/intent.ts';
import { MOOD_AXIS_NAMES } from '../../intent/moodAxes.ts';
import { type MoodMeasures, moodDistance } from '../../intent/moodDistance.ts';
import { censusFor } from '../censusFor.ts';
import { hueSpreadOf } from '../hueSpread/measure.ts';
import type { ReadingInput } from '../reading.ts';
import { tonalityOf, tonalView } from '../value/measure.ts';
import { activePassive, heavyLight, pad, warmCool } from './emotion.ts';
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
  let heavy = 0;
  let active = 0;
  let pleasure = 0;
  let arousal = 0;
  let dominance = 0;
  for (let i = 0; i < count; i++) {
    const w = share[i];
    const [L, a, b] = linearToCielab([rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]]);
    const chroma = Math.sqrt(a * a + b * b);
    const wc = warmCool(chroma, (Math.atan2(b, a) * 180) / Math.PI);
    warm += w * wc;
    warm2 += w * wc * wc;
    heavy += w * heavyLight(L);
    active += w * activePassive(L, chroma);
    const emotion = pad(L, chroma);
    pleasure += w * emotion.pleasure;
    arousal += w * emotion.arousal;
    dominance += w * emotion.dominance;
  }
  return {
    warmCool: warm,
    warmCoolSpread: Math.sqrt(Math.max(0, warm2 - warm * warm)),
    heavyLight: heavy,
    activePassive: active,
    pleasure,
    arousal,
    dominance,
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

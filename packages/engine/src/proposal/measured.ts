import type { Census } from '../census/census.ts';
import { lightness, luminance } from '../colour/cielab.ts';
import type { ColourSpace } from '../colour/space.ts';
import type { Intent } from '../intent/intent.ts';
import type { MoodMeasures } from '../intent/moodDistance.ts';
import { sortedPercentiles } from '../numbers/percentiles.ts';
import type { ExaminedReading } from '../readings/examine.ts';
import { sharesAtEnds } from '../readings/headroom/ends.ts';
import type { HeadroomValue } from '../readings/headroom/types.ts';
import { effectiveHues, hueDensity } from '../readings/hueSpread/density.ts';
import { familiesOf } from '../readings/hueSpread/families.ts';
import { hueHistogram } from '../readings/hueSpread/histogram.ts';
import { planOf } from '../readings/hueSpread/plan.ts';
import { strayHues } from '../readings/hueSpread/strays.ts';
import type { HueSpreadValue } from '../readings/hueSpread/types.ts';
import { emotionOf } from '../readings/mood/measure.ts';
import type { MoodValue } from '../readings/mood/types.ts';
import type { ReadingId } from '../readings/reading.ts';
import { hasPaint, type ValueValue } from '../readings/value/types.ts';
import type { Measured } from './gauges.ts';

export type { Measured };

/** What was measured in an examination; what a reading abstained from is null. */
export function measuredIn(examination: {
  readonly readings: readonly Pick<ExaminedReading, 'id' | 'reading'>[];
}): Measured {
  const readingOf = <V>(id: ReadingId): V | null => {
    const reading = examination.readings.find((r) => r.id === id)?.reading;
    return reading && reading.evidence.level !== 'weak' ? (reading.value as V) : null;
  };
  const headroom = readingOf<HeadroomValue>('headroom');
  const value = readingOf<ValueValue>('value');
  return {
    hues: readingOf<HueSpreadValue>('hueSpread'),
    ends: headroom && {
      darks: headroom.darksShare,
      lights: headroom.lightsShare,
      colours: headroom.coloursShare,
    },
    mood: readingOf<MoodValue>('mood'),
    values: value && hasPaint(value) ? { key: value.key, range: value.range, focus: value.focus } : null,
  };
}

/** Colours seen from a step back, without their places. */
export interface WholeColours {
  readonly count: number;
  /** Linear light, `count × 3`. */
  readonly rgb: Float64Array;
  readonly weight: Float64Array;
  /** How much of each lies inside the focus and in the ring around it, 0…1; null when none is drawn. */
  readonly focus: { readonly inside: Float64Array; readonly around: Float64Array } | null;
}

/**
 * The same numbers from colours alone, for a guess of what an edit does.
 *
 * @param before what was measured in the picture itself: what colours can't tell (softness, edges) stays as it was,
 * and what a reading abstained from is left out
 */
export function measureColours(
  census: Census,
  whole: WholeColours,
  intent: Intent,
  space: ColourSpace,
  before: Measured,
): Measured {
  const hues = before.hues || before.mood ? measureHueSpread(census, intent) : null;
  const tones = tonesOf(whole);
  const mood: MoodMeasures | null = before.mood && {
    ...before.mood,
    ...emotionOf(census),
    key: tones.key,
    contrast: tones.range,
    hueSpread: hues?.effectiveHues ?? null,
  };
  const edges = before.values?.focus?.edges;
  return {
    hues: before.hues && hues,
    ends: before.ends && sharesAtEnds(census, space),
    mood,
    values: before.values && {
      key: tones.key,
      range: tones.range,
      focus:
        edges === undefined || tones.difference === null ? null : { edges, difference: tones.difference },
    },
  };
}

function measureHueSpread(census: Census, intent: Intent): NonNullable<Measured['hues']> {
  const histogram = hueHistogram(census);
  const coloured = histogram.colourWeight > 0;
  const density = hueDensity(histogram.weight);
  const families = familiesOf(census, histogram, density);
  const plan = planOf(intent.hue, families);
  return {
    effectiveHues: coloured ? effectiveHues(density) : null,
    strayShare: coloured && plan.planned ? dot(histogram.weight, strayHues(plan)) : null,
    accentAreaShare: plan.accent ? dot(histogram.area, plan.accentOnly) : null,
    families,
    planned: plan.planned,
  };
}

function tonesOf({ count, rgb, weight, focus }: WholeColours): {
  key: number;
  range: number;
  difference: number | null;
} {
  const L = new Float64Array(count);
  for (let i = 0; i < count; i++)
    L[i] = Math.max(0, lightness(luminance(rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2])));
  const [sorted, weights] = rising(L, weight);
  const [low, high] = count > 0 ? sortedPercentiles(sorted, weights, [0.05, 0.95]) : [0, 0];
  const mean = (of: Float64Array): number => {
    let sum = 0;
    let all = 0;
    for (let i = 0; i < count; i++) {
      sum += weight[i] * of[i] * L[i];
      all += weight[i] * of[i];
    }
    return all > 0 ? sum / all : Number.NaN;
  };
  const difference = focus ? Math.abs(mean(focus.inside) - mean(focus.around)) : Number.NaN;
  return {
    key: mean(new Float64Array(count).fill(1)),
    range: high - low,
    difference: Number.isNaN(difference) ? null : difference,
  };
}

/** Values in rising order with their weights; where all weigh alike the order of equal ones says nothing. */
function rising(values: Float64Array, weight: Float64Array): [Float64Array, Float64Array] {
  if (weight.every((w) => w === weight[0])) return [values.slice().sort(), weight];
  const order = Uint32Array.from(values.keys()).sort((a, b) => values[a] - values[b]);
  return [Float64Array.from(order, (i) => values[i]), Float64Array.from(order, (i) => weight[i])];
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

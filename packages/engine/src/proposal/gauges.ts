import { HUE_SPREAD } from '../findings/thresholds/hueSpread.ts';
import { MOOD } from '../findings/thresholds/mood.ts';
import { forArtist, type Threshold, usualRange } from '../findings/thresholds/threshold.ts';
import { VALUE } from '../findings/thresholds/value.ts';
import type { MoodAxis } from '../intent/intent.ts';
import { MOOD_AXIS_NAMES } from '../intent/moodAxes.ts';
import { type MoodMeasures, stepsBeyond } from '../intent/moodDistance.ts';
import { endsThreshold } from '../readings/headroom/findings.ts';
import { countedFamilies, spreadThreshold } from '../readings/hueSpread/findings.ts';
import type { HueSpreadValue } from '../readings/hueSpread/types.ts';
import type { ReadingId, ReadingInput } from '../readings/reading.ts';
import { focusStands } from '../readings/value/findings.ts';

/** The numbers of the readings that an edit of colours can move. */
export interface Measured {
  readonly hues: Pick<
    HueSpreadValue,
    'effectiveHues' | 'strayShare' | 'accentAreaShare' | 'families' | 'planned'
  > | null;
  /** Shares of the area at the ends. */
  readonly ends: { readonly darks: number; readonly lights: number; readonly colours: number } | null;
  readonly mood: MoodMeasures | null;
  readonly values: {
    readonly key: number;
    readonly range: number;
    readonly focus: { readonly difference: number; readonly edges: number } | null;
  } | null;
}

/** How far one number lies from where its finding would go away. */
export interface Gauge {
  /** Key of the finding. */
  readonly key: string;
  readonly reading: ReadingId;
  /** What it counts against the others. */
  readonly weight: number;
  /**
   * 0 at the threshold, 1 where the finding weighs heavily, negative where all is well; the number from which
   * severities are made. Null where it has no meaning.
   */
  off(measured: Measured): number | null;
}

/** Liveliness alone is no finding, so that it only leans. */
const LEANING = 0.25;

/** Every gauge that the intent and the baseline give a meaning to. */
export function gaugesFor(input: Pick<ReadingInput, 'intent' | 'baseline'>): Gauge[] {
  return [...hueGauges(input), ...endGauges(input), ...valueGauges(input), ...moodGauges(input)];
}

function off(value: number | null, { from, strong }: Pick<Threshold, 'from' | 'strong'>): number | null {
  return value === null ? null : (value - from) / (strong - from);
}

function hueGauges(input: Pick<ReadingInput, 'intent' | 'baseline'>): Gauge[] {
  const gauge = (key: string, of: (hues: NonNullable<Measured['hues']>) => number | null): Gauge => ({
    key: `hueSpread.${key}`,
    reading: 'hueSpread',
    weight: 1,
    off: ({ hues }) => hues && of(hues),
  });
  const gauges = [
    gauge('many', (hues) => {
      const third = countedFamilies(hues)[2]?.weightShare ?? 0;
      return off(hues.effectiveHues, spreadThreshold(hues, third, input));
    }),
  ];
  const { hue } = input.intent;
  if (hue && hue.families.length > 0)
    gauges.push(gauge('strays', (h) => off(h.strayShare, HUE_SPREAD.strays)));
  if (hue?.accent) gauges.push(gauge('accent', (h) => off(h.accentAreaShare, HUE_SPREAD.accent)));
  if (!hue) gauges.push(gauge('unusual', (h) => beyond(h.effectiveHues, input, 'hueSpread.effectiveHues')));
  return gauges;
}

/** How far a number lies outside what is usual for the artist, in widths of the usual range; see `unusualFor`. */
function beyond(value: number | null, { baseline }: Pick<ReadingInput, 'baseline'>, measure: string) {
  const range = usualRange(baseline, measure);
  if (!range || value === null) return null;
  return Math.max(value - range.p90, range.p10 - value) / Math.max(range.p90 - range.p10, 1e-9) - 0.25;
}

function endGauges({ intent, baseline }: Pick<ReadingInput, 'intent' | 'baseline'>): Gauge[] {
  return (['darks', 'lights', 'colours'] as const).map((key) => {
    const threshold = endsThreshold(key, intent, baseline);
    return {
      key: `headroom.${key}`,
      reading: 'headroom',
      weight: 1,
      off: ({ ends }) => ends && off(ends[key], threshold),
    };
  });
}

function valueGauges(input: Pick<ReadingInput, 'intent' | 'baseline'>): Gauge[] {
  const { intent, baseline } = input;
  const axes = intent.mood?.axes;
  const gauge = (key: string, of: (values: NonNullable<Measured['values']>) => number | null): Gauge => ({
    key: `value.${key}`,
    reading: 'value',
    weight: 1,
    off: ({ values }) => values && of(values),
  });
  const close = forArtist(VALUE.range, baseline, 'value.range');
  const gauges = [gauge('focus', ({ focus }) => focus && off(focusStands(focus), VALUE.focus))];
  if (!axes?.contrast) {
    gauges.push(gauge('close', ({ range }) => off(range, close)));
    gauges.push(gauge('unusual.range', ({ range }) => beyond(range, input, 'value.range')));
  }
  if (!axes?.key && !axes?.heavyLight)
    gauges.push(gauge('unusual.key', ({ key }) => beyond(key, input, 'value.key')));
  return gauges;
}

function moodGauges({ intent }: Pick<ReadingInput, 'intent'>): Gauge[] {
  const { mood } = intent;
  if (!mood) return [];
  return MOOD_AXIS_NAMES.flatMap((axis: MoodAxis): Gauge[] => {
    const target = mood.axes[axis];
    const weight = mood.weights?.[axis] ?? 1;
    if (!target || !(weight > 0)) return [];
    return [
      {
        key: `mood.${axis}`,
        reading: 'mood',
        weight: axis === 'activePassive' ? LEANING : 1,
        off: ({ mood: measures }) => {
          const value = measures?.[axis] ?? null;
          if (value === null) return null;
          return off(
            Math.abs(stepsBeyond(axis, value, target.at, target.tolerance)) * Math.sqrt(weight),
            MOOD.off,
          );
        },
      },
    ];
  });
}

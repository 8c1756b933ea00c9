import type { MoodAxis } from '../intent/intent.ts';
import { MOOD_AXES } from '../intent/moodAxes.ts';
import type { ReadingId } from '../readings/reading.ts';
import type { Measured } from './gauges.ts';
import type { MeasureChange } from './types.ts';

/** The number behind a gauge as screens and sentences show it. */
interface Shown extends Pick<MeasureChange, 'key' | 'label' | 'unit' | 'digits'> {
  readonly reading: ReadingId;
  of(measured: Measured): number | null;
}

const percent = (share: number | null | undefined): number | null =>
  share === null || share === undefined ? null : 100 * share;

const SPREAD: Shown = {
  reading: 'hueSpread',
  key: 'effectiveHues',
  label: 'spread of hues',
  unit: 'hues',
  digits: 1,
  of: (m) => m.hues?.effectiveHues ?? null,
};
const RANGE: Shown = {
  reading: 'value',
  key: 'range',
  label: 'range of values',
  unit: 'L*',
  digits: 0,
  of: (m) => m.values?.range ?? null,
};
const ends = (key: 'darks' | 'lights' | 'colours', label: string): Shown => ({
  reading: 'headroom',
  key: `${key}Share`,
  label,
  unit: '%',
  digits: 1,
  of: (m) => percent(m.ends?.[key]),
});

/** By the key of the gauge. */
const SHOWN: Readonly<Record<string, Shown>> = {
  'hueSpread.many': SPREAD,
  'hueSpread.unusual': SPREAD,
  'hueSpread.strays': {
    reading: 'hueSpread',
    key: 'strayShare',
    label: 'colour outside the plan',
    unit: '%',
    digits: 0,
    of: (m) => percent(m.hues?.strayShare),
  },
  'hueSpread.accent': {
    reading: 'hueSpread',
    key: 'accentAreaShare',
    label: 'area of the accent',
    unit: '%',
    digits: 1,
    of: (m) => percent(m.hues?.accentAreaShare),
  },
  'headroom.darks': ends('darks', 'closed darks'),
  'headroom.lights': ends('lights', 'closed lights'),
  'headroom.colours': ends('colours', 'colours at the edge'),
  'value.close': RANGE,
  'value.unusual.range': RANGE,
  'value.unusual.key': {
    reading: 'value',
    key: 'key',
    label: 'key',
    unit: 'L*',
    digits: 0,
    of: (m) => m.values?.key ?? null,
  },
  'value.focus': {
    reading: 'value',
    key: 'focusDifference',
    label: 'focus against its surroundings',
    unit: 'L*',
    digits: 0,
    of: (m) => m.values?.focus?.difference ?? null,
  },
};

function shownFor(gauge: string): Shown | null {
  const axis = gauge.startsWith('mood.') ? (gauge.slice(5) as MoodAxis) : null;
  if (!axis) return SHOWN[gauge] ?? null;
  const { title, unit, digits } = MOOD_AXES[axis];
  return { reading: 'mood', key: axis, label: title, unit, digits, of: (m) => m.mood?.[axis] ?? null };
}

/**
 * The numbers behind gauges before and after a step.
 *
 * What a step does is guessed on a sample; `truth` and `verified` are what the readings say of the picture before and
 * after the whole edit: guesses are stretched to meet both.
 */
export function movesOf(
  gauges: readonly string[],
  states: { readonly truth: Measured; readonly verified: Measured },
  sample: {
    readonly start: Measured;
    readonly end: Measured;
    readonly before: Measured;
    readonly after: Measured;
  },
): MeasureChange[] {
  const seen = new Set<string>();
  return gauges.flatMap((gauge) => {
    const shown = shownFor(gauge);
    if (!shown || seen.has(shown.key)) return [];
    seen.add(shown.key);
    const [first, last, start, end, before, after] = [
      states.truth,
      states.verified,
      sample.start,
      sample.end,
      sample.before,
      sample.after,
    ].map(shown.of);
    if (
      first === null ||
      last === null ||
      start === null ||
      end === null ||
      before === null ||
      after === null
    )
      return [];
    const way = end - start;
    const stretch = Math.abs(way) > 1e-9 ? (last - first) / way : 1;
    const factor = stretch > 0.4 && stretch < 2.5 ? stretch : 1;
    const reach = (v: number): number => first + factor * (v - start);
    // Shares don't go below nothing, however a guess is stretched.
    const at = (v: number): number => (shown.unit === '%' ? Math.max(0, reach(v)) : reach(v));
    const { reading, key, label, unit, digits } = shown;
    const change = { reading, key, label, unit, digits, before: at(before), after: at(after) };
    // What looks the same is not shown.
    return change.before.toFixed(digits) === change.after.toFixed(digits) ? [] : [change];
  });
}

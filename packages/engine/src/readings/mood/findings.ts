import type { Finding } from '../../findings/finding.ts';
import { MOOD } from '../../findings/thresholds/mood.ts';
import { severityOf } from '../../findings/thresholds/threshold.ts';
import { listOf, sentence } from '../../findings/wording.ts';
import type { AxisTarget, MoodAxis, MoodIntent } from '../../intent/intent.ts';
import { MOOD_AXES, MOOD_AXIS_NAMES } from '../../intent/moodAxes.ts';
import type { Reading, ReadingInput } from '../reading.ts';
import { mover } from './movers.ts';
import type { MoodValue } from './types.ts';

/** One finding: the axis that is farthest from the intended mood. Nothing when no mood is intended. */
export function moodFindings({ value }: Reading<MoodValue>, input: ReadingInput): Finding[] {
  const { mood } = input.intent;
  if (!mood || !value.distance) return [];
  const off = offAxes(value, mood);
  // Liveliness alone hardly tells a fog from a night.
  const worst = off.find(({ axis }) => axis !== 'activePassive');
  if (!worst) return [];
  const { axis, steps } = worst;
  const kind = MOOD_AXES[axis];
  const others = off.filter((o) => o.axis !== axis);
  const also =
    others.length > 0 ? `; also ${listOf(others.map((o) => direction(o.axis, o.steps)))} than intended` : '';
  return [
    {
      key: `mood.${axis}`,
      reading: 'mood',
      severity: severityOf(worst.weighted, MOOD.off),
      text: sentence(`${direction(axis, steps)} than ${moodName(mood)}.`),
      number: `${kind.title} ${show(axis, value[axis]!)}, intended ${range(axis, mood.axes[axis]!)}${also}`,
      todo: mover(axis, steps > 0, input),
      origin: { kind: 'intent', text: `your mood; ${MOOD.off.origin.text}` },
    },
  ];
}

/** Axes beyond their tolerance, the farthest first. */
function offAxes(
  value: MoodValue,
  mood: MoodIntent,
): { readonly axis: MoodAxis; readonly steps: number; readonly weighted: number }[] {
  return MOOD_AXIS_NAMES.map((axis) => {
    const steps = value.distance?.axes[axis] ?? 0;
    return { axis, steps, weighted: Math.abs(steps) * Math.sqrt(mood.weights?.[axis] ?? 1) };
  })
    .filter(({ weighted }) => weighted >= MOOD.off.from)
    .sort((a, b) => b.weighted - a.weighted);
}

/** What to say when the picture lies where it should, or when no mood is decided. */
export function moodFine({ value }: Reading<MoodValue>, { intent }: ReadingInput): string {
  const { mood } = intent;
  const seen = sentence(character(value));
  if (!mood) return `${seen}; no mood is decided to hold it against.`;
  if (!value.distance) return `${seen}; the decided mood names no axis that can be read here.`;
  const lively = value.distance.axes.activePassive ?? 0;
  const but = Math.abs(lively) >= MOOD.off.from ? `, only ${direction('activePassive', lively)}` : '';
  const name = moodName(mood);
  return `${seen}: as ${name === YOURS ? name : `${name} should be`}${but}.`;
}

/** The picture in three words: its temperature, key and edges. */
export function character({ warmCool, key, softness }: MoodValue): string {
  if (warmCool === null) return 'unpainted';
  // A grey has a warm–cool of −0.5.
  const words = [warmCool > 0.05 ? 'warm' : warmCool < -0.65 ? 'cool' : 'neither warm nor cool'];
  if (key !== null) words.push(key < 35 ? 'dark' : key > 62 ? 'light' : 'in a middle key');
  if (softness !== null)
    words.push(`with ${softness < 2.3 ? 'hard' : softness > 4.5 ? 'soft' : 'firm'} edges`);
  return words.join(', ');
}

/** "cooler", "softer in its edges": the comparative for an axis. */
function direction(axis: MoodAxis, steps: number): string {
  return steps > 0 ? MOOD_AXES[axis].more : MOOD_AXES[axis].less;
}

const YOURS = 'you decided';

/** The intended mood in words. */
function moodName({ words, examples }: MoodIntent): string {
  if (words && words.length > 0) return `“${words.join(', ')}”`;
  if (examples && examples.length > 0) return listOf(examples.map((e) => `“${e.name}”`));
  return YOURS;
}

function show(axis: MoodAxis, v: number): string {
  const { digits, unit } = MOOD_AXES[axis];
  return `${v.toFixed(digits).replace('-', '−')}${unit === '' || unit === 'hues' ? '' : ` ${unit}`}`;
}

/** "34 ± 9 L*". */
function range(axis: MoodAxis, { at, tolerance }: AxisTarget): string {
  return `${at.toFixed(MOOD_AXES[axis].digits).replace('-', '−')} ± ${show(axis, tolerance)}`;
}

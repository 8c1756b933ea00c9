import {
  type AxisTarget,
  blendMood,
  MOOD_AXES,
  MOOD_AXIS_NAMES,
  type MoodAxis,
  type MoodIntent,
} from '@halflight/engine';

/** Axes that are always offered; the others come when they are asked for or when a word speaks of them. */
const OFFERED: readonly MoodAxis[] = ['warmCool', 'heavyLight', 'key', 'contrast'];

/** Which axes are shown, in the engine's order. */
export function shownAxes(mood: MoodIntent | undefined, asked: readonly MoodAxis[]): MoodAxis[] {
  return MOOD_AXIS_NAMES.filter((axis) => mood?.axes[axis] || OFFERED.includes(axis) || asked.includes(axis));
}

/** Where a value lies on an axis, 0 (low end) to 1, held at the ends. */
export function axisPart(axis: MoodAxis, value: number): number {
  const { from, to, scale } = MOOD_AXES[axis];
  const part =
    scale === 'linear'
      ? (value - from) / (to - from)
      : Math.log(Math.max(value, 1e-3) / from) / Math.log(to / from);
  return Math.min(1, Math.max(0, part));
}

/** The value at a part of an axis, rounded to the axis' digits. */
export function axisValue(axis: MoodAxis, part: number): number {
  const { from, to, scale, digits } = MOOD_AXES[axis];
  const value = scale === 'linear' ? from + part * (to - from) : from * (to / from) ** part;
  return Number(value.toFixed(digits));
}

/** The mood with a word chosen or no longer chosen; axes that were set by hand stay where they are. */
export function withWord(mood: MoodIntent | undefined, word: string): MoodIntent | undefined {
  const old = mood?.words ?? [];
  const words = old.includes(word) ? old.filter((it) => it !== word) : [...old, word];
  const before = blendMood(mood ?? {});
  const byHand = Object.entries(mood?.axes ?? {}).filter(
    ([axis, target]) => !sameTarget(target, before[axis as MoodAxis]),
  );
  const { words: _words, ...rest } = mood ?? { axes: {} };
  const named = words.length > 0 ? { ...rest, words } : rest;
  return closed({ ...named, axes: { ...blendMood(named), ...Object.fromEntries(byHand) } });
}

/** The mood with a target on an axis, or without one. */
export function withTarget(
  mood: MoodIntent | undefined,
  axis: MoodAxis,
  target: AxisTarget | null,
): MoodIntent | undefined {
  const { [axis]: _old, ...others } = mood?.axes ?? {};
  return closed({ ...mood, axes: target === null ? others : { ...others, [axis]: target } });
}

/** A mood that says nothing is none. */
function closed(mood: MoodIntent): MoodIntent | undefined {
  const says = mood.words?.length || mood.examples?.length || Object.keys(mood.axes).length > 0;
  return says ? mood : undefined;
}

function sameTarget(a: AxisTarget | undefined, b: AxisTarget | undefined): boolean {
  return a?.at === b?.at && a?.tolerance === b?.tolerance;
}

import { round } from '../../drawings/arcs.ts';
import type { Drawing, Shape } from '../../drawings/drawing.ts';
import { listOf } from '../../findings/wording.ts';
import type { MoodAxis } from '../../intent/intent.ts';
import { MOOD_AXES, MOOD_AXIS_NAMES } from '../../intent/moodAxes.ts';
import type { Reading, ReadingInput } from '../reading.ts';
import { character } from './findings.ts';
import type { MoodValue } from './types.ts';

const WIDTH = 300;
const ROW = 34;
const LEFT = 8;
const LENGTH = WIDTH - 2 * LEFT;

/** Each axis a short line: the intended range as a band on it, the picture as a mark. */
export function drawMood({ value }: Reading<MoodValue>, { intent }: ReadingInput): Drawing {
  const targets = intent.mood?.axes ?? {};
  // With a mood only its axes matter.
  const decided = MOOD_AXIS_NAMES.filter((axis) => targets[axis]);
  const axes = (decided.length > 0 ? decided : MOOD_AXIS_NAMES).filter((axis) => value[axis] !== null);
  const shapes: Shape[] = [];
  axes.forEach((axis, row) => {
    const y = ROW * row + 24;
    const { low, high } = MOOD_AXES[axis];
    const target = targets[axis];
    shapes.push(
      { kind: 'text', x: LEFT, y: y - 9, text: low, anchor: 'start', fill: 'quiet' },
      { kind: 'text', x: WIDTH - LEFT, y: y - 9, text: high, anchor: 'end', fill: 'quiet' },
    );
    if (target) {
      const from = place(axis, target.at - target.tolerance);
      const to = place(axis, target.at + target.tolerance);
      shapes.push({
        kind: 'rect',
        x: from,
        y: y - 4,
        width: round(to - from),
        height: 8,
        fill: 'faint',
        stroke: 'quiet',
      });
    }
    const at = place(axis, value[axis]!);
    shapes.push(
      { kind: 'line', x1: LEFT, y1: y, x2: WIDTH - LEFT, y2: y, stroke: 'quiet', strokeWidth: 1 },
      { kind: 'circle', cx: at, cy: y, r: 4, fill: 'ink' },
    );
  });
  return {
    width: WIDTH,
    height: ROW * Math.max(1, axes.length),
    shapes,
    sentence: describe(value, axes, decided.length > 0),
  };
}

/** Place of a value on the line, held at its ends. */
function place(axis: MoodAxis, v: number): number {
  const { from, to, scale } = MOOD_AXES[axis];
  const t =
    scale === 'linear' ? (v - from) / (to - from) : Math.log(Math.max(v, 0.05) / from) / Math.log(to / from);
  return round(LEFT + LENGTH * Math.min(1, Math.max(0, t)));
}

function describe(value: MoodValue, axes: readonly MoodAxis[], decided: boolean): string {
  if (!decided) return `The picture is ${character(value)}. No mood is decided.`;
  const off = axes.filter((axis) => (value.distance?.axes[axis] ?? 0) !== 0);
  if (off.length === 0) return 'The picture lies within the intended range on every axis.';
  const phrases = off.map((axis) =>
    value.distance!.axes[axis]! > 0 ? MOOD_AXES[axis].more : MOOD_AXES[axis].less,
  );
  return `Against the intended range the picture is ${listOf(phrases)}; ${off.length === axes.length ? 'no axis fits' : 'the other axes fit'}.`;
}

import type { Finding } from '../../findings/finding.ts';
import { forArtist, severityOf, unusualFor } from '../../findings/thresholds/threshold.ts';
import { SHAPES_RANGE, VALUE } from '../../findings/thresholds/value.ts';
import { countWord, percent, sentence } from '../../findings/wording.ts';
import type { Reading, ReadingInput } from '../reading.ts';
import { type FocusContrast, hasPaint, type SeenValues, type ValueValue } from './types.ts';

/** Findings of the values: too close, broken into too many shapes, a focus that does not stand out, unusual ones. */
export function valueFindings({ value }: Reading<ValueValue>, input: ReadingInput): Finding[] {
  if (!hasPaint(value)) return [];
  const found = [closeFinding(value, input), shapesFinding(value, input), focusFinding(value)];
  return [...found, ...(found[0] ? [] : unusualFindings(value, input))].filter((f) => f !== null);
}

function closeFinding(value: SeenValues, { intent, baseline }: ReadingInput): Finding | null {
  // Close values that were decided are the mood's business.
  if (intent.mood?.axes.contrast) return null;
  const threshold = forArtist(VALUE.range, baseline, 'value.range');
  const severity = severityOf(value.range, threshold);
  if (severity === 0) return null;
  const where = value.key < 25 ? 'in the dark' : value.key > 75 ? 'in the light' : 'in the middle';
  return {
    key: 'value.close',
    reading: 'value',
    severity,
    text: `All values lie close together ${where}.`,
    number: `${L(value.low)} to ${L(value.high)} L*, a range of ${L(value.range)} (below ${L(threshold.from)})`,
    todo: 'If it is not to be a veil over everything, give one place a value of its own.',
    origin: threshold.origin,
  };
}

function shapesFinding(value: SeenValues, { baseline }: ReadingInput): Finding | null {
  if (value.range < SHAPES_RANGE) return null;
  const threshold = forArtist(VALUE.shapes, baseline, 'value.shapes');
  const severity = severityOf(value.shapes, threshold);
  if (severity === 0) return null;
  return {
    key: 'value.scattered',
    reading: 'value',
    severity,
    text: 'From a step back the values break into many small shapes.',
    number: `${Math.round(value.shapes)} shapes in three tones (from ${Math.round(threshold.from)})`,
    todo: 'Join neighbours of like value until a few large shapes are left; squint to see which.',
    origin: threshold.origin,
    map: 'groups',
  };
}

function focusFinding({ focus }: SeenValues): Finding | null {
  if (!focus) return null;
  const stands = focusStands(focus);
  const severity = severityOf(stands, VALUE.focus);
  if (severity === 0) return null;
  return {
    key: 'value.focus',
    reading: 'value',
    severity,
    text: 'The focus does not stand out in value.',
    number: `${L(focus.inside)} against ${L(focus.around)} L* around it; its strongest edges are ${focus.edges.toFixed(1)} × those elsewhere`,
    todo:
      focus.inside >= focus.around
        ? 'Lighten the focus or darken what lies behind it, and quiet the strongest edges elsewhere.'
        : 'Darken the focus or lighten what lies behind it, and quiet the strongest edges elsewhere.',
    origin: VALUE.focus.origin,
    map: 'groups',
  };
}

/** How far the focus stands out: a clear step in value to the surroundings does as much as the strongest edge. */
export function focusStands({ edges, difference }: Pick<FocusContrast, 'edges' | 'difference'>): number {
  return Math.max(edges, difference / CLEAR_STEP);
}

/** A difference of this many L* between focus and surroundings is a clear step. Our default. */
const CLEAR_STEP = 15;

function unusualFindings(value: SeenValues, { baseline, intent }: ReadingInput): (Finding | null)[] {
  const one = (
    measure: 'key' | 'range',
    decided: unknown,
    more: string,
    less: string,
    name: string,
  ): Finding | null => {
    const unusual = decided ? null : unusualFor(value[measure], baseline, `value.${measure}`, 0);
    if (!unusual) return null;
    return {
      key: `value.unusual.${measure}`,
      reading: 'value',
      severity: unusual.severity,
      text: unusual.direction === 'more' ? more : less,
      number: `${name} ${L(value[measure])} L*, ${unusual.range}`,
      todo: 'If that was not the plan, hold it beside one of your finished works.',
      origin: unusual.origin,
    };
  };
  const axes = intent.mood?.axes;
  return [
    one(
      'key',
      axes?.key ?? axes?.heavyLight,
      'Lighter than you usually paint.',
      'Darker than you usually paint.',
      'key',
    ),
    one(
      'range',
      axes?.contrast,
      'Values lie farther apart than you usually set them.',
      'Values lie closer together than you usually set them.',
      'range',
    ),
  ];
}

/** What to say when nothing is wrong, about this picture. */
export function valueFine({ value }: Reading<ValueValue>): string {
  if (!hasPaint(value)) return 'Nothing is painted.';
  const { groups, key } = value;
  if (groups.length === 1) return 'One flat tone.';
  const largest = groups.reduce((a, b) => (b.share > a.share ? b : a));
  const place =
    largest === groups[0]
      ? 'the darkest'
      : largest === groups[groups.length - 1]
        ? 'the lightest'
        : 'a middle tone';
  const tone = key < 35 ? 'Low key' : key > 65 ? 'High key' : 'Middle key';
  return `${tone}: ${countWord(groups.length)} groups of value, ${place} leads with ${percent(largest.share)} of the picture.`;
}

/** The values in a sentence, for those who can't see the drawing. */
export function describeValues({ groups }: ValueValue): string {
  if (groups.length === 0) return 'Nothing is painted.';
  const parts = groups.map((g) => `L* ${L(g.L)} takes ${percent(g.share)}`);
  return `The picture in ${groups.length > 1 ? 'three tones' : 'one tone'} beside its groups from dark to light: ${sentence(parts.join(', '))}.`;
}

function L(v: number): string {
  return v.toFixed(0);
}

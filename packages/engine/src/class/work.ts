import type { Finding } from '../findings/finding.ts';
import type { MoodAxis } from '../intent/intent.ts';
import { MOOD_AXES } from '../intent/moodAxes.ts';
import { READINGS } from '../readings/list.ts';
import type { ReadingId } from '../readings/reading.ts';

/** A finding as the lines of `check` carry it. */
export type LineFinding = Pick<Finding, 'key' | 'reading' | 'severity' | 'text' | 'todo' | 'number'> & {
  readonly places?: readonly { readonly outline?: readonly number[] }[];
};

/** One work of a class as its line tells it. */
export interface LineWork {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  /** Values of the readings as they stand in the line. */
  readonly readings: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
  /** Every number of the readings that can tell, by "reading.measure"; null where it has no meaning. */
  readonly values: Readonly<Record<string, number | null>>;
  /** The weightiest first. */
  readonly findings: readonly LineFinding[];
}

/** A number that works can be placed by. */
export interface SeriesMeasure {
  /** "mood.warmCool". */
  readonly name: string;
  /** Title of its reading. */
  readonly title: string;
  readonly label: string;
  readonly unit: string;
  readonly digits: number;
  /** What its low and its high end are called. */
  readonly ends: readonly [string, string];
}

/** Every number of every reading, in the order of the list. */
export function seriesMeasures(): SeriesMeasure[] {
  return READINGS.flatMap(({ id, title, measures }) =>
    measures.map(({ key, label, unit, digits }) => {
      const axis = id === 'mood' ? MOOD_AXES[key as MoodAxis] : undefined;
      const ends: [string, string] = axis ? [axis.low, axis.high] : ['less', 'more'];
      return { name: `${id}.${key}`, title, label, unit, digits, ends };
    }),
  );
}

/** A line of `check --json` as a work; null when it tells that the picture could not be read. */
export function workOfLine(line: string): LineWork | null {
  const { picture, readings, findings } = JSON.parse(line);
  if (!readings) return null;
  const values: Record<string, number | null> = {};
  for (const { id, measures } of READINGS) {
    const value = readings[id];
    // A reading that can't tell says nothing about its work.
    if (!value || value.evidence === 'weak') continue;
    for (const { key, get } of measures) values[`${id}.${key}`] = get(value) ?? null;
  }
  return { name: picture.name, width: picture.width, height: picture.height, readings, values, findings };
}

/**
 * What the readings find strong in a work, one sentence each: what is surely seen first. A mood is strong only where
 * one was decided.
 */
export function strengthsOf(
  readings: readonly {
    readonly id: ReadingId;
    readonly fine: string | null;
    readonly evidence: { readonly level: string };
    readonly value?: unknown;
  }[],
): string[] {
  const told = readings.filter(
    ({ id, value }) =>
      id !== 'mood' || typeof (value as { distance?: unknown } | undefined)?.distance === 'number',
  );
  const at = (level: string): string[] =>
    told.flatMap(({ fine, evidence }) => (fine !== null && evidence.level === level ? [fine] : []));
  return [...at('strong'), ...at('fair')];
}

import type { Drawing } from '../drawings/drawing.ts';
import { type Answer, settles } from '../findings/answer.ts';
import type { Finding } from '../findings/finding.ts';
import type { Intent } from '../intent/intent.ts';
import { undecided } from '../intent/undecided.ts';
import { READINGS } from './list.ts';
import type { Reading, ReadingId, ReadingInput, ReadingKind } from './reading.ts';

/** A reading with all that screens and reports show of it. */
export interface ExaminedReading {
  readonly id: ReadingId;
  readonly title: string;
  readonly about: string;
  readonly sources: readonly string[];
  readonly reading: Reading<unknown>;
  readonly findings: readonly Finding[];
  /** One sentence when there is nothing to find, null otherwise and when the evidence is weak. */
  readonly fine: string | null;
  readonly drawing: Drawing;
  readonly measures: readonly ExaminedMeasure[];
}

export interface ExaminedMeasure {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  readonly digits: number;
  readonly value: number | null;
}

export interface Examination {
  readonly readings: readonly ExaminedReading[];
  /** Open findings, the weightiest first. */
  readonly findings: readonly Finding[];
  /** Findings that the artist accepted or called mistaken. */
  readonly settled: readonly Finding[];
  /** What the intent leaves open, one phrase each. */
  readonly undecided: readonly string[];
}

/**
 * Makes every reading of a picture and ranks the findings.
 *
 * @param previous an examination of the same pixels: readings whose part of the intent did not change are kept
 */
export function examine(
  input: ReadingInput,
  answers: readonly Answer[] = [],
  previous?: Previous,
): Examination {
  const readings = READINGS.map((kind) => examineReading(kind, input, previous));
  return { readings, ...rank(readings, input.intent, answers) };
}

/** What `examine` says beside the readings themselves: for those who make the readings one by one, or on several threads. */
export function rank(
  readings: readonly Pick<ExaminedReading, 'findings'>[],
  intent: Intent,
  answers: readonly Answer[] = [],
): Omit<Examination, 'readings'> {
  const all = readings.flatMap((r) => r.findings).sort((a, b) => b.severity - a.severity);
  const open = (f: Finding): boolean => !answers.some((a) => settles(a, f));
  return {
    findings: all.filter(open),
    settled: all.filter((f) => !open(f)),
    undecided: undecided(intent),
  };
}

/** An earlier examination with the input it was made from. */
export interface Previous {
  readonly input: ReadingInput;
  readonly examination: Examination;
}

/** Makes one reading with all that is shown of it. */
export function examineReading(kind: ReadingKind, input: ReadingInput, previous?: Previous): ExaminedReading {
  const reading = reuse(kind, input, previous) ?? kind.read(input);
  const silent = reading.evidence.level === 'weak';
  const findings = silent ? [] : kind.findings(reading, input);
  return {
    id: kind.id,
    title: kind.title,
    about: kind.about,
    sources: kind.sources,
    reading,
    findings,
    fine: silent || findings.length > 0 ? null : kind.fine(reading, input),
    drawing: kind.draw(reading, input),
    measures: kind.measures.map(({ key, label, unit, digits, get }) => ({
      key,
      label,
      unit,
      digits,
      value: get(reading.value),
    })),
  };
}

function reuse(kind: ReadingKind, input: ReadingInput, previous?: Previous): Reading<unknown> | null {
  if (!previous) return null;
  const before = previous.input;
  const samePixels =
    before.census === input.census && before.views === input.views && before.leftOut === input.leftOut;
  if (!samePixels || before.photographed !== input.photographed || before.layers !== input.layers)
    return null;
  const part = (i: ReadingInput): string => JSON.stringify(kind.needs?.(i.intent) ?? null);
  if (part(before) !== part(input)) return null;
  return previous.examination.readings.find((r) => r.id === kind.id)?.reading ?? null;
}

import {
  type Consistency,
  consistencyOf,
  groupByFinding,
  type LineWork,
  type SeriesPlane,
  seriesPlane,
} from '@halflight/engine';
import type { ClassDocument, ClassWork } from '../../state/class-document.ts';
import { isRead, type KeptReading, type ReadWork } from '../../state/class-reading.ts';
import type { ClassMeasure } from '../../workers/class/desk.ts';

/** A work with what was read of it. */
export interface ReadEntry {
  readonly work: ClassWork;
  readonly read: ReadWork;
}

/** The works that are read, in the order of the class. */
export function readEntries(
  { works }: ClassDocument,
  readings: Readonly<Record<string, KeptReading>>,
): ReadEntry[] {
  return works.flatMap((work) => {
    const read = readings[work.id];
    return isRead(read) ? [{ work, read }] : [];
  });
}

/** Works that share a finding. */
export interface SharedFinding {
  readonly key: string;
  readonly text: string;
  readonly todo: string;
  readonly works: readonly ClassWork[];
}

/** Findings that the works have, the most shared first, in words that hold for all who share one. */
export function sharedFindings(entries: readonly ReadEntry[]): SharedFinding[] {
  return groupByFinding(entries.map(({ read }) => read)).map(({ key, text, todo, works }) => ({
    key,
    text,
    todo,
    works: works.map((place) => entries[place].work),
  }));
}

/** Where the works lie by two numbers, each with what it measures. */
export interface Plane extends SeriesPlane {
  readonly acrossBy: ClassMeasure | undefined;
  readonly upBy: ClassMeasure | undefined;
}

export function planeOf(
  entries: readonly ReadEntry[],
  measures: readonly ClassMeasure[],
  across: string,
  up: string,
): Plane {
  const valuesOf = (name: string) => entries.map(({ read }) => read.values[name] ?? null);
  const named = (name: string) => measures.find((it) => it.name === name);
  return { ...seriesPlane(valuesOf(across), valuesOf(up)), acrossBy: named(across), upBy: named(up) };
}

/** How the works hold together as a set; places are those of the entries. */
export function setOf(entries: readonly ReadEntry[]): Consistency {
  return consistencyOf(linesOf(entries));
}

/** The works as their lines tell them. */
export function linesOf(entries: readonly ReadEntry[]): LineWork[] {
  return entries.map(({ work, read }) => {
    const { readings } = JSON.parse(read.line) as Pick<LineWork, 'readings'>;
    const { width, height } = read.facts;
    return { name: work.file, width, height, readings, values: read.values, findings: read.findings };
  });
}

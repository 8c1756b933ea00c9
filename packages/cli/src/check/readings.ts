import {
  type Evidence,
  type ExaminedMeasure,
  type ExaminedReading,
  examineReading,
  type Finding,
  READINGS,
  type ReadingId,
  type ReadingInput,
} from '@halflight/engine';
import { writeMaps } from './maps.ts';

/** A reading as plain data: without its maps, which are made only when asked for, and its drawing. */
export interface LookedReading {
  readonly id: ReadingId;
  readonly title: string;
  readonly value: unknown;
  readonly evidence: Evidence;
  readonly findings: readonly Finding[];
  readonly fine: string | null;
  readonly measures: readonly ExaminedMeasure[];
}

/** Where the maps of a picture go. */
export interface MapPlace {
  readonly folder: string;
  /** Start of the file names. */
  readonly name: string;
}

/** Gives each reading of the list to one thread: the place of the next one, in memory that all of them see. */
export type Queue = Int32Array;

export function openQueue(): Queue {
  return new Int32Array(new SharedArrayBuffer(4));
}

/** Makes readings as long as the queue has some, and writes their maps when they have a place. */
export async function takeReadings(
  input: ReadingInput,
  maps: MapPlace | null,
  queue: Queue = openQueue(),
): Promise<LookedReading[]> {
  const done: LookedReading[] = [];
  for (;;) {
    const kind = READINGS[Atomics.add(queue, 0, 1)];
    if (!kind) return done;
    const examined = examineReading(kind, input);
    if (maps) await writeMaps(maps, examined, input.views.close);
    done.push(plain(examined));
  }
}

/** Readings of several threads in the order of the list. */
export function inOrder(readings: readonly LookedReading[]): LookedReading[] {
  const place = (reading: LookedReading): number => READINGS.findIndex((kind) => kind.id === reading.id);
  return [...readings].sort((a, b) => place(a) - place(b));
}

/** A reading without its maps and its drawing. */
export function plain({ id, title, reading, findings, fine, measures }: ExaminedReading): LookedReading {
  return { id, title, value: reading.value, evidence: reading.evidence, findings, fine, measures };
}

import {
  type Baseline,
  type Evidence,
  type ExaminedMeasure,
  type ExaminedReading,
  examine,
  type Finding,
  type Intent,
  type PictureFacts,
  type ReadingId,
} from '@halflight/engine';
import type { Codec } from '@halflight/files';
import { readPicture } from '@halflight/files/node';
import { writeMaps } from './maps.ts';
import type { Measure } from './measure.ts';
import { makeStrips, type Strips } from './strips.ts';

/** What is wanted of every picture of one run. */
export interface Wish {
  readonly intent: Intent;
  readonly baseline: Baseline | null;
  readonly limitMegapixels: number;
  /** Folder for the maps, or null when none are wanted. */
  readonly maps: string | null;
}

/** One picture to look at. */
export interface Task {
  readonly path: string;
  /** Start of the names of its map files. */
  readonly name: string;
}

/** What a thread needs to look at pictures. */
export interface Hands {
  readonly codec: Codec;
  /** How census and views are made: on this thread, or shared with another. */
  readonly measure: Measure;
}

/** What was seen of a picture: plain data, so that it can cross from a worker. */
export interface Looked {
  readonly picture: PictureFacts;
  readonly notes: readonly string[];
  readonly readings: readonly LookedReading[];
  readonly findings: readonly Finding[];
  readonly undecided: readonly string[];
  readonly strips: Strips;
}

export interface LookedReading {
  readonly id: ReadingId;
  readonly title: string;
  readonly value: unknown;
  readonly evidence: Evidence;
  readonly fine: string | null;
  readonly measures: readonly ExaminedMeasure[];
}

/**
 * Reads a picture and makes every reading of it; writes its maps when they are wanted.
 *
 * @throws FileTrouble when the picture can't be read or a map can't be written
 */
export async function look(task: Task, wish: Wish, { codec, measure }: Hands): Promise<Looked> {
  const { limitMegapixels, intent, baseline } = wish;
  const { raster, facts, notes } = await readPicture(task.path, { codec, limitMegapixels });
  const { census, views } = await measure(raster);
  const examination = examine({
    picture: facts,
    census,
    views,
    intent,
    baseline,
    leftOut: null,
    photographed: false,
  });
  if (wish.maps !== null) await writeMaps(wish.maps, task.name, examination.readings, views.close);
  return {
    picture: facts,
    notes,
    readings: examination.readings.map(plain),
    findings: examination.findings,
    undecided: examination.undecided,
    strips: makeStrips(census),
  };
}

/** A reading without its maps, which are made only when asked for. */
function plain({ id, title, reading, fine, measures }: ExaminedReading): LookedReading {
  return { id, title, value: reading.value, evidence: reading.evidence, fine, measures };
}

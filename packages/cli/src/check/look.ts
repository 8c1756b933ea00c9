import {
  type Baseline,
  type ColourSpace,
  type Finding,
  type Intent,
  type PictureFacts,
  type Raster,
  type ReadingInput,
  rank,
  readingInput,
} from '@halflight/engine';
import type { Codec } from '@halflight/files';
import { readWhole } from '../layers/readWhole.ts';
import type { Measured } from './measure.ts';
import type { LookedReading, MapPlace } from './readings.ts';
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

/** How the work on a picture is done: on one thread, or shared with another. */
export interface Hands {
  readonly codec: Codec;
  /** Makes the two things that every reading stands on. */
  measure(raster: Raster): Measured | Promise<Measured>;
  /** Makes all readings, in the order of the engine's list, and writes their maps when they have a place. */
  read(input: ReadingInput, maps: MapPlace | null): Promise<LookedReading[]>;
}

/** What was seen of a picture: plain data, so that it can cross from a worker. */
export interface Looked {
  readonly picture: PictureFacts;
  readonly notes: readonly string[];
  readonly readings: readonly LookedReading[];
  readonly findings: readonly Finding[];
  readonly undecided: readonly string[];
  readonly strips: Strips;
  /** The picture's own colour space, in which colours are named. */
  readonly space: ColourSpace;
}

/**
 * Reads a picture and makes every reading of it; writes its maps when they are wanted.
 *
 * @throws FileTrouble when the picture can't be read or a map can't be written
 */
export async function look(task: Task, wish: Wish, hands: Hands): Promise<Looked> {
  const { limitMegapixels, intent, baseline } = wish;
  const { raster, facts, notes, layers } = await readWhole(task.path, hands.codec, limitMegapixels);
  const { census, views } = await hands.measure(raster);
  const input = readingInput({ picture: facts, census, views, intent, baseline, layers });
  const maps = wish.maps === null ? null : { folder: wish.maps, name: task.name };
  const readings = await hands.read(input, maps);
  const { findings, undecided } = rank(readings, intent);
  const strips = makeStrips(census);
  return { picture: facts, notes, readings, findings, undecided, strips, space: raster.space };
}

import {
  type Baseline,
  type Change,
  changeBetween,
  makeViews,
  outcomeOf,
  type Views,
} from '@halflight/engine';
import {
  type Answer,
  type Codec,
  currentVersion,
  type Version,
  type Work,
  withVersion,
} from '@halflight/files';
import type { Dossier } from '@halflight/files/dossier';
import { type ReadPicture, readForWork, takePicture } from './read.ts';

/** A work that was given its next version. */
export interface Grown {
  readonly work: Work;
  readonly read: ReadPicture;
  /** What changed since the version before; null when nothing of one is seen in the other. */
  readonly change: Change | null;
  /** Sentences about the file. */
  readonly notes: readonly string[];
}

interface GrowOptions {
  readonly limit: number;
  readonly minutes?: number;
  readonly baseline: Baseline | null;
}

/**
 * Reads a picture as the next version of the work in a dossier: lays it on the version before, lets areas and
 * answers travel, and asks it about every "will do".
 *
 * @returns null when the picture is the newest version already
 * @throws FileTrouble
 */
export async function grow(
  older: Dossier,
  picture: string,
  codec: Codec,
  { limit, minutes, baseline }: GrowOptions,
): Promise<Grown | null> {
  const before = currentVersion(older.work);
  const taken = await takePicture(picture, codec, limit);
  if (taken.hash === before.hash) return null;
  const change = changeBetween(await viewsOf(older, before, codec, limit), taken.views);
  const number = before.number + 1;
  // The document comes first: the picture is read against intent and answers as they lie on it.
  const bare: Version = { ...before, number };
  const carried = withVersion(older.work, bare, change?.pose ?? null);
  const read = await readForWork(taken, carried.intent, baseline, carried.answers);
  const version: Version = {
    ...read.sheet,
    number,
    ...(minutes !== undefined && { minutes }),
    ...(change && { change: { from: before.number, ...change } }),
  };
  const asked = (answer: Answer): Answer =>
    answer.kind === 'willDo' && change
      ? { ...answer, outcome: { version: number, state: outcomeOf(answer, read.readings) } }
      : answer;
  const work: Work = {
    ...carried,
    versions: [...older.work.versions, version],
    answers: carried.answers.map(asked),
  };
  return { work, read, change, notes: taken.notes };
}

/** The views of a version that lies in a dossier. */
async function viewsOf(dossier: Dossier, version: Version, codec: Codec, limit: number): Promise<Views> {
  const bytes = await dossier.bytes(version.hash);
  const { raster } = await codec.decode(bytes, {
    name: version.name,
    limitMegapixels: Math.max(limit, 1000),
  });
  return makeViews(raster);
}

import {
  type Dossier,
  type NewThing,
  openDossier,
  openShelfFile,
  type Source,
  writeDossier,
} from '@halflight/files/dossier';
import { thingsOf, type Work } from '../document/work.ts';
import type { Files } from './files.ts';
import { keepNew, openKept } from './kept.ts';
import { folderOf, pictureOf } from './places.ts';

/** Writes a work as a dossier; bytes that the store has lost are left out, and their number is told. */
export async function writeWork(
  files: Files,
  work: Work,
  sink: WritableStream<Uint8Array>,
  onProgress?: (share: number) => void,
): Promise<number> {
  const things: NewThing[] = [];
  let missing = 0;
  for (const hash of thingsOf(work)) {
    const blob = await files.blob(pictureOf(hash));
    if (blob === null) missing++;
    else
      things.push({
        hash,
        bytes: blob.size,
        mediaType: mediaTypeOf(work, hash),
        open: () => blob.stream() as ReadableStream<Uint8Array>,
      });
  }
  const written = new Date().toISOString();
  await writeDossier(sink, { work, things, writer: 'Halflight', written }, onProgress);
  return missing;
}

function mediaTypeOf({ versions, glances }: Work, hash: string): string {
  const version = versions.find((it) => it.hash === hash);
  if (version) return version.mediaType || 'application/octet-stream';
  const readings = [...versions, ...glances].some((it) => it.readings === hash);
  return readings ? 'application/json' : 'image/webp';
}

/** A work that was brought in from a dossier. */
export interface BroughtIn {
  readonly work: Work;
  /** True when it stood on the shelf already, the same in everything: nothing was done. */
  readonly there: boolean;
  /** Sentences about what is damaged in the dossier; the rest came in. */
  readonly troubles: readonly string[];
}

/**
 * Keeps the work of a dossier. Nothing on the shelf is changed: when the same work stands there in another state,
 * the one of the dossier stands beside it.
 *
 * @throws FileTrouble when the dossier can't be opened; the store's error when it is full
 */
export async function bringIn(files: Files, source: Source): Promise<BroughtIn> {
  const dossier = await openDossier(source);
  const known = await openKept(files, folderOf(dossier.work.id));
  if (known && JSON.stringify(known.history.present) === JSON.stringify(dossier.work)) {
    const troubles = await takeThings(files, dossier);
    return { work: dossier.work, there: true, troubles };
  }
  const troubles = await takeThings(files, dossier);
  const work = known ? { ...dossier.work, id: crypto.randomUUID() } : dossier.work;
  await keepNew(files, folderOf(work.id), work);
  return { work, there: false, troubles };
}

/** Keeps all bytes that the work needs and the store has not; gives sentences about those that are damaged. */
async function takeThings(files: Files, dossier: Dossier): Promise<string[]> {
  const troubles: string[] = [];
  const sizes = new Map(dossier.manifest.files.map(({ hash, bytes }) => [hash, bytes]));
  for (const hash of thingsOf(dossier.work)) {
    if ((await files.size(pictureOf(hash))) === (sizes.get(hash) ?? -1)) continue;
    try {
      const content = dossier.stream(hash);
      await content.pipeTo(await files.sink(pictureOf(hash)));
    } catch (error) {
      // A full store ends it all; a damaged picture only itself.
      if (!(error instanceof Error) || error.name !== 'FileTrouble') throw error;
      troubles.push(error.message);
    }
  }
  return troubles;
}

/** Where a dossier out of a file of the whole shelf stands while it is brought in. */
const WAITING = 'incoming/dossier';

/**
 * Keeps every work of a chosen file: of one dossier, or of a whole shelf.
 *
 * @param openSource makes a source of what stands in the store
 */
export async function bringInAll(
  files: Files,
  source: Source,
  openSource: (blob: Blob, name: string) => Source,
  onEach: (brought: BroughtIn) => Promise<void>,
  onTrouble: (sentence: string) => void,
): Promise<void> {
  const parts = await openShelfFile(source);
  if (parts === null) {
    await onEach(await bringIn(files, source));
    return;
  }
  for (const part of parts) {
    try {
      await part.stream().pipeTo(await files.sink(WAITING));
      const blob = await files.blob(WAITING);
      if (blob) await onEach(await bringIn(files, openSource(blob, part.name)));
    } catch (error) {
      if (!(error instanceof Error) || error.name === 'QuotaExceededError') throw error;
      const own = error.name === 'FileTrouble';
      onTrouble(own ? error.message : `“${part.name}” is damaged: it could not be brought in.`);
    } finally {
      await files.remove(WAITING);
    }
  }
}

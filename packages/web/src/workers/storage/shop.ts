import { begin, type History } from '../../document/history.ts';
import { bytesOf } from '../../document/time.ts';
import { currentVersion, thingsOf, type Work } from '../../document/work.ts';
import { type Files, memoryFiles } from '../../storage/files.ts';
import type { ShelfEntry } from '../../storage/keeper.ts';
import { openKept } from '../../storage/kept.ts';
import { folderOf, pictureOf, thumbOf } from '../../storage/places.ts';
import { openIndex, type ShelfIndex } from './index-db.ts';
import { opfsFiles } from './opfs.ts';

/** Where everything is kept. */
export interface Shop {
  readonly files: Files;
  readonly index: ShelfIndex;
  /** False when all of it ends with the page. */
  readonly lasting: boolean;
}

/** Opens the store, sweeping it first when no other tab is using it. */
export async function openShop(): Promise<Shop> {
  const lasting = await opfsFiles();
  const shop = { files: lasting ?? memoryFiles(), index: await openIndex(), lasting: lasting !== null };
  if ('locks' in navigator) {
    await navigator.locks.request('halflight:tabs', { ifAvailable: true }, (alone) => alone && sweep(shop));
    void navigator.locks.request('halflight:tabs', { mode: 'shared' }, () => new Promise(() => undefined));
  }
  return shop;
}

/** The line of the shelf for a work. */
export function entryOf(work: Work, thumb: Blob | null): ShelfEntry {
  const version = currentVersion(work);
  return {
    id: work.id,
    title: work.title,
    state: work.state,
    version: version.number,
    created: work.created,
    touched: version.added,
    hashes: hashesOf(begin(work)),
    ...(thumb && { thumb }),
  };
}

/** Bytes that a work needs, also to undo and redo; the newest version's picture stands last. */
export function hashesOf({ present, done, undone }: History): string[] {
  const all = new Set([...thingsOf(present), ...[...done, ...undone].flatMap(bytesOf)]);
  const newest = currentVersion(present).hash;
  all.delete(newest);
  return [...all, newest];
}

/**
 * Works taken off the shelf go for good, works that the index lost come back to it, and pictures that no
 * work needs go. A work that can't be read keeps its folder, and then every picture is kept too.
 */
async function sweep({ files, index }: Shop): Promise<void> {
  // Files that were on their way when the last page ended.
  for (const folder of ['incoming', 'outgoing']) await files.remove(folder);
  const entries = await index.all();
  for (const { id } of entries.filter((entry) => entry.removed)) {
    await files.remove(folderOf(id));
    await index.delete(id);
  }
  const known = new Map(entries.filter((entry) => !entry.removed).map((entry) => [entry.id, entry]));
  let unread = false;
  for (const id of await files.list('works')) {
    if (known.has(id)) continue;
    const kept = await openKept(files, folderOf(id));
    unread ||= kept === null;
    if (kept === null) continue;
    const { present } = kept.history;
    const entry = { ...entryOf(present, await thumbOf(files, present)), hashes: hashesOf(kept.history) };
    await index.put(entry);
    known.set(id, entry);
  }
  if (unread) return;
  const needed = new Set([...known.values()].flatMap((entry) => entry.hashes));
  for (const hash of await files.list('pictures')) {
    if (!needed.has(hash)) await files.remove(pictureOf(hash));
  }
}

import type { Finding } from '@halflight/engine';
import { begin, type History } from '../../document/history.ts';
import { bytesOf } from '../../document/time.ts';
import { type Answer, currentVersion, type Look, thingsOf, type Work } from '../../document/work.ts';
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
    lastLook: lastLookOf(work),
    hashes: hashesOf(begin(work)),
    ...(thumb && { thumb }),
  };
}

/** The last quiet look, as the shelf tells it. */
export function lastLookOf({ looks }: Work): Pick<Look, 'at' | 'version'> | null {
  const look = looks.at(-1);
  return look ? { at: look.at, version: look.version } : null;
}

/** The line of a work that comes from a dossier, or out of its folder alone: with what its kept readings say. */
export async function entryWithNotes(files: Files, work: Work): Promise<ShelfEntry> {
  const entry = entryOf(work, await thumbOf(files, work));
  const { readings } = currentVersion(work);
  const bytes = readings === undefined ? null : await files.read(pictureOf(readings));
  try {
    const line = JSON.parse(new TextDecoder().decode(bytes ?? undefined)) as { findings: Finding[] };
    const open = line.findings.filter(({ key }) => !work.answers.some((answer) => settles(answer, key)));
    return { ...entry, topFinding: open[0]?.text ?? null, openNotes: open.length };
  } catch {
    // Never read, or lost: it is read when it is opened.
    return entry;
  }
}

const settles = ({ key, kind, outline }: Answer, of: string): boolean =>
  key === of && kind !== 'willDo' && outline === undefined;

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
export async function sweep({ files, index }: Pick<Shop, 'files' | 'index'>): Promise<void> {
  // Files that were on their way when the last page ended.
  for (const folder of ['incoming', 'outgoing']) await files.remove(folder);
  const entries = await index.all();
  for (const { id } of entries.filter((entry) => entry.removed)) {
    await files.remove(folderOf(id));
    await index.delete(id);
  }
  const known = new Map(entries.filter((entry) => !entry.removed).map((entry) => [entry.id, entry]));
  const folders = await files.list('works');
  let unread = false;
  for (const id of folders) {
    if (known.has(id)) continue;
    const kept = await openKept(files, folderOf(id));
    unread ||= kept === null;
    if (kept === null) continue;
    const { present } = kept.history;
    const entry = { ...(await entryWithNotes(files, present)), hashes: hashesOf(kept.history) };
    await index.put(entry);
    known.set(id, entry);
  }
  if (unread) return;
  const needed = new Set([...known.values()].flatMap((entry) => entry.hashes));
  const orphans = (await files.list('pictures')).filter((hash) => !needed.has(hash));
  if (orphans.length === 0) return;
  // The index lags behind a work when the page ended between the two: before bytes go, the works are asked.
  for (const id of folders) {
    const kept = await openKept(files, folderOf(id));
    if (kept === null) return;
    const { present } = kept.history;
    const hashes = hashesOf(kept.history);
    if (hashes.some((hash) => !needed.has(hash)))
      await index.change(id, { hashes, title: present.title, version: currentVersion(present).number });
    for (const hash of hashes) needed.add(hash);
  }
  for (const hash of orphans) if (!needed.has(hash)) await files.remove(pictureOf(hash));
}

/**
 * Makes room: works that were taken off the shelf can't be put back any more, and their bytes go.
 *
 * @param spared hashes that something on its way needs
 * @returns whether there was anything to remove
 */
export async function forgetRemoved(
  shop: Pick<Shop, 'files' | 'index'>,
  spared: readonly string[],
): Promise<boolean> {
  const removed = (await shop.index.all()).filter((entry) => entry.removed);
  for (const { id } of removed) await forgetWork(shop, id, spared);
  return removed.length > 0;
}

/** Lets a work go for good, with the bytes that nothing else needs. */
export async function forgetWork(
  { files, index }: Pick<Shop, 'files' | 'index'>,
  id: string,
  spared: readonly string[],
): Promise<void> {
  const entries = await index.all();
  const others = entries.filter((entry) => entry.id !== id && !entry.removed);
  const needed = new Set([...others.flatMap(({ hashes }) => hashes), ...spared]);
  await files.remove(folderOf(id));
  await index.delete(id);
  for (const hash of entries.find((entry) => entry.id === id)?.hashes ?? [])
    if (!needed.has(hash)) await files.remove(pictureOf(hash));
}

import { go, isWorkRoute } from '../app/route.ts';
import { begin, rebuild } from '../document/history.ts';
import { currentVersion, newWork, titleFromName, type Version } from '../document/work.ts';
import { Stopped } from '../picture/client.ts';
import type { OpenedPicture } from '../picture/desk.ts';
import type { ShelfEntry } from '../storage/keeper.ts';
import { keeper, pictures } from './desks.ts';
import { bringIn, isDossierName } from './dossiers.ts';
import { askToKeep, keepingSentence } from './keeping.ts';
import { readNext } from './next.ts';
import { forgetReadings, refreshReadings } from './readings.ts';
import { clearTroubles, get, type Session, set, trouble } from './session.ts';

/** A picture that comes in: its bytes and what is known of it. */
export interface Incoming {
  readonly file: Blob;
  readonly name: string;
  readonly title?: string;
  readonly version?: number;
  /** From the clipboard: read, but only kept when the artist says so, if it belongs to the open work. */
  readonly pasted?: boolean;
}

/** What a picture is taken for: by what it shows, as the next version of the open work, or as a work of its own. */
export type ComingAs = 'fits' | 'next' | 'own';

let stopped = false;

/**
 * Opens pictures: one goes straight to its notes, several go onto the shelf one after the other. With a work open
 * one that shows the same picture becomes its next version.
 */
export async function openIncoming(all: readonly Incoming[], as: ComingAs = 'fits'): Promise<void> {
  clearTroubles(['opening']);
  const dossiers = all.filter(({ name }) => isDossierName(name));
  if (dossiers.length > 0) {
    const only = await bringIn(dossiers);
    if (dossiers.length === all.length) {
      // The address leads there, and the work is opened by it.
      go(only === null ? { screen: 'shelf' } : { screen: 'check', work: only });
      return;
    }
  }
  const incoming = all.filter(({ name }) => !isDossierName(name));
  stopped = false;
  const grows = as === 'next' || (as === 'fits' && incoming.length === 1);
  const many = incoming.length > 1 && !grows;
  for (const [index, item] of incoming.entries()) {
    if (stopped) break;
    const count = incoming.length > 1 ? { count: `${index + 1} of ${incoming.length}` } : {};
    set({ opening: { name: item.name, progress: { doing: 'Reading the file', share: null }, ...count } });
    try {
      const next = grows ? await readNext(item, as === 'next') : null;
      if (next !== 'done') await openOne(item, !many, next);
    } catch (error) {
      if (!(error instanceof Stopped)) trouble('opening', sentenceOf(error, item.name));
      await closeWork();
    } finally {
      set({ opening: null });
    }
  }
  const { route, history } = get();
  if (many) {
    await closeWork();
    go({ screen: 'shelf' });
  } else if (isWorkRoute(route) && history === null) {
    await openWork(route.work);
  }
  await refreshShelf();
}

/** Stops what is being opened; what came before stays as it was. */
export function stopOpening(): void {
  stopped = true;
  pictures.stop();
}

/** Opens one picture and reads it; `show` goes to its notes. */
async function openOne(
  { file, name, title, version }: Incoming,
  show: boolean,
  opened: OpenedPicture | null,
): Promise<void> {
  await closeWork();
  const [hash, picture] = await Promise.all([keeper.hashOf(file), opened ?? openPicture(file, name)]);
  const known = (await keeper.shelf()).find((entry) => entry.hashes.at(-1) === hash);
  if (known) {
    await keeper.keepPicture(hash, file).catch((error) => trouble('keeping', keepingSentence(error)));
    if (await adopt(known.id, picture, show)) return;
  }
  // The small picture belongs to the work, so that a dossier brings it along; a full store is told below.
  const small = await keeper.keep(picture.thumb).catch(() => null);
  const work = newWork(crypto.randomUUID(), title ?? titleFromName(name), {
    ...versionOf(name, version ?? 1, hash, file, picture),
    ...(small !== null && { small }),
  });
  set({ history: begin(work), picture, writable: true, ...(show && arrivedAt(work.id)) });
  try {
    await keeper.create(work, file, picture.thumb);
    await keeper.open(work.id);
    void askToKeep();
  } catch (error) {
    trouble('keeping', keepingSentence(error));
  }
  if (show) go({ screen: 'check', work: work.id });
  await refreshReadings();
}

/** Gives up reading the open picture: it goes back onto the shelf. */
export function stopReading(): void {
  pictures.stop();
  go({ screen: 'shelf' });
}

/** Opens a work of the shelf; the address already says so. */
export async function openWork(id: string): Promise<void> {
  await closeWork();
  const entry = await entryOf(id);
  stopped = false;
  set({
    opening: { name: entry?.title ?? 'the work', progress: { doing: 'Reading the file', share: null } },
  });
  try {
    const kept = await keeper.open(id);
    if (kept === null) throw new Error('This work is not on the shelf of this browser.');
    const history = rebuild(kept.base, kept.done, kept.undone);
    const version = currentVersion(history.present);
    const file = await keeper.picture(version.hash, version.mediaType);
    if (file === null) {
      throw new Error(
        `The picture of “${history.present.title}” is no longer in this browser’s store. Open its file again and the work goes on.`,
      );
    }
    const picture = await openPicture(file, version.name);
    if (!isAt(id)) return;
    set({ history, picture, writable: kept.writable, opening: null });
    await refreshReadings();
  } catch (error) {
    if (!(error instanceof Stopped)) trouble('opening', sentenceOf(error, entry?.title ?? 'The work'));
    await closeWork();
    if (isAt(id)) go({ screen: 'shelf' });
  } finally {
    if (isAt(id)) set({ opening: null });
  }
}

/** Puts the open work away. */
export async function closeWork(): Promise<void> {
  get().picture?.bitmap.close();
  forgetReadings();
  set({
    history: null,
    picture: null,
    seen: null,
    place: null,
    openNote: null,
    pointedNote: null,
    writable: true,
    glance: null,
  });
  await keeper.close();
}

export async function refreshShelf(): Promise<void> {
  const [shelf, keeping] = await Promise.all([keeper.shelf(), keeper.state()]);
  const before = new Map(get().shelf?.map((entry) => [entry.id, entry]));
  // A line that says the same stays the same object: of hundreds only those that changed are drawn again.
  const same = (entry: ShelfEntry): ShelfEntry => {
    const old = before.get(entry.id);
    return old && shelfKey(old) === shelfKey(entry) ? old : entry;
  };
  set({ shelf: shelf.map(same), keeping });
}

const shelfKey = ({ thumb, ...entry }: ShelfEntry): string => JSON.stringify([entry, thumb?.size]);

let lastCrash = 0;

/** The picture worker died: the work is opened again, unless that has just been tried. */
pictures.onCrash(() => {
  const { history, opening } = get();
  const again = Date.now() - lastCrash > 60_000;
  lastCrash = Date.now();
  if (history === null || opening) return;
  const { id, title } = history.present;
  if (again) {
    trouble('reading', 'The part that reads pictures stopped and was started again. Nothing is lost.');
    void openWork(id);
  } else {
    trouble(
      'opening',
      `“${title}” stops the part that reads pictures. Nothing is lost; try a smaller copy of it.`,
    );
    void closeWork().then(() => go({ screen: 'shelf' }));
  }
});

/** Opens a picture on the desk, telling how far it is. */
export function openPicture(file: Blob, name: string): Promise<OpenedPicture> {
  return pictures.open(file, name, (progress) => {
    const { opening } = get();
    if (opening) set({ opening: { ...opening, progress } });
  });
}

/** The state that shows a work's notes, at once: the address follows a moment later. */
function arrivedAt(work: string): Partial<Session> {
  return { opening: null, route: { screen: 'check', work } };
}

/** Goes on with a work whose picture has just been opened. */
async function adopt(id: string, picture: OpenedPicture, show: boolean): Promise<boolean> {
  const kept = await keeper.open(id);
  if (kept === null) return false;
  const history = rebuild(kept.base, kept.done, kept.undone);
  set({ history, picture, writable: kept.writable, ...(show && arrivedAt(id)) });
  if (show) go({ screen: 'check', work: id });
  await refreshReadings();
  return true;
}

/** What is known of a picture's file as a version. */
export function versionOf(
  name: string,
  number: number,
  hash: string,
  file: Blob,
  picture: OpenedPicture,
): Version {
  const { width, height, depth, profile, tagged } = picture.facts;
  const added = new Date().toISOString();
  return {
    number,
    name,
    hash,
    bytes: file.size,
    mediaType: file.type,
    width,
    height,
    depth,
    profile,
    tagged,
    added,
  };
}

async function entryOf(id: string): Promise<ShelfEntry | undefined> {
  return (await keeper.shelf()).find((entry) => entry.id === id);
}

const isAt = (id: string): boolean => {
  const { route } = get();
  return isWorkRoute(route) && route.work === id;
};

function sentenceOf(error: unknown, name: string): string {
  const text = error instanceof Error && error.message ? error.message : 'It could not be read.';
  return text.includes(name) ? text : `${name}: ${text}`;
}

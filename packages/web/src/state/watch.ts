import { openDB } from 'idb';
import { create } from 'zustand';
import { currentVersion } from '../document/work.ts';
import { keeper } from './desks.ts';
import { useLook } from './look.ts';
import { openIncoming } from './open.ts';
import { get, say, set, trouble } from './session.ts';

/** What TypeScript's page library leaves out of file handles. */
interface Handle extends FileSystemFileHandle {
  queryPermission?(wish: { mode: 'read' }): Promise<PermissionState>;
  requestPermission?(wish: { mode: 'read' }): Promise<PermissionState>;
}
interface PickerWindow {
  showOpenFilePicker?(options: { multiple: false }): Promise<Handle[]>;
}

/** The file that a painting program saves, for the open work. */
interface WatchState {
  readonly work: string;
  readonly name: string;
  /** Watching; waiting for one tap that renews the permission; the file can't be reached. */
  readonly state: 'on' | 'asks' | 'lost';
}

export const useWatch = create<{ readonly watched: WatchState | null }>(() => ({ watched: null }));

/**
 * How often the file is looked at, in milliseconds: a save is seen, and found to be at rest, within half a second. A look
 * asks for size and time only.
 */
const PAUSE = 200;
/** A file that can't be read may still be written: it is waited for that many looks before it is said. */
const PATIENCE = 30;

let handle: Handle | null = null;
/** The state of the file that was read last, and the one that was seen last. */
let known = '';
let last = '';
/** Looks in a row at which the file was not there, and readings in a row that came to no end. */
let absent = 0;
let failed = 0;
/** The state that could not be read. */
let tried = '';
let timer: ReturnType<typeof setInterval> | null = null;
let busy = false;

/** Whether this browser gives handles of files. */
export function canWatch(): boolean {
  return (window as PickerWindow).showOpenFilePicker !== undefined;
}

/** The file that was chosen last: some browsers read it anew after it was saved, others must be asked again. */
let chosen: File | null = null;

export function rememberChosen(file: File): void {
  chosen = file;
}

/** Reads the last chosen file again where there are no handles; `choose` asks for it when it is not to be had. */
export async function readAgain(choose: () => void): Promise<void> {
  const { history } = get();
  try {
    if (chosen === null || history === null) return choose();
    const bytes = new Blob([await chosen.arrayBuffer()], { type: chosen.type });
    if ((await keeper.hashOf(bytes)) === currentVersion(history.present).hash) return choose();
    await openIncoming([{ file: bytes, name: chosen.name }], 'next');
  } catch {
    choose();
  }
}

/** Lets the artist pick the file that the painting program saves; every save is then the next version. */
export async function watchFile(): Promise<void> {
  const { history } = get();
  const { showOpenFilePicker } = window as PickerWindow;
  if (history === null || !showOpenFilePicker) return;
  try {
    const [picked] = await showOpenFilePicker({ multiple: false });
    await keepHandle(history.present.id, picked);
    await begin(history.present.id, picked);
  } catch (error) {
    if ((error as Error).name !== 'AbortError')
      trouble('opening', 'That file can’t be watched. Open its next version by hand instead.');
  }
}

/** Goes on watching after a reload: one tap renews the permission. */
export async function renewWatch(): Promise<void> {
  const { watched } = useWatch.getState();
  if (watched === null || handle === null) return;
  const answer = (await handle.requestPermission?.({ mode: 'read' })) ?? 'granted';
  if (answer === 'granted') await begin(watched.work, handle);
}

/** Ends it, for good. */
export async function endWatch(): Promise<void> {
  const { watched } = useWatch.getState();
  pause();
  useWatch.setState({ watched: null });
  if (watched) await (await handles()).delete('handles', watched.work);
}

/** Finds the file of the work that was opened. */
export async function findWatch(work: string): Promise<void> {
  if (useWatch.getState().watched?.work === work) return;
  pause();
  useWatch.setState({ watched: null });
  const kept = (await (await handles()).get('handles', work)) as Handle | undefined;
  if (kept === undefined || get().history?.present.id !== work) return;
  handle = kept;
  const allowed = (await kept.queryPermission?.({ mode: 'read' })) ?? 'granted';
  if (allowed === 'granted') await begin(work, kept);
  else useWatch.setState({ watched: { work, name: kept.name, state: 'asks' } });
}

async function begin(work: string, file: Handle): Promise<void> {
  pause();
  handle = file;
  known = '';
  last = '';
  absent = 0;
  failed = 0;
  useWatch.setState({ watched: { work, name: file.name, state: 'on' } });
  timer = setInterval(() => void look(), PAUSE);
  await look();
}

function pause(): void {
  if (timer !== null) clearInterval(timer);
  timer = null;
}

document.addEventListener('visibilitychange', () => {
  if (timer !== null) void look();
});

/** Looks at the file once: a new state that stays the same from one look to the next is a finished save. */
async function look(): Promise<void> {
  const { watched } = useWatch.getState();
  const { history, opening, writable, glance } = get();
  if (busy || handle === null || watched === null || document.visibilityState !== 'visible') return;
  if (history?.present.id !== watched.work || opening || (!writable && glance === null)) return;
  // Nothing comes between the eye and the picture during a quiet look and its questions.
  if (useLook.getState().phase !== 'ready') return;
  busy = true;
  try {
    const file = await handle.getFile();
    const state = `${file.size} ${file.lastModified}`;
    absent = 0;
    if (watched.state === 'lost') useWatch.setState({ watched: { ...watched, state: 'on' } });
    const steady = state === last;
    last = state;
    if (state === known || !steady || file.size === 0) return;
    await read(file, state);
  } catch {
    // Gone for a moment while the program swaps files, or for good: it is looked for again.
    if (++absent > PATIENCE) useWatch.setState({ watched: { ...watched, state: 'lost' } });
  } finally {
    busy = false;
  }
}

async function read(file: File, state: string): Promise<void> {
  const { history } = get();
  // The bytes are taken now: the program may save again while they are decoded.
  const bytes = new Blob([await file.arrayBuffer()], { type: file.type });
  if (history && (await keeper.hashOf(bytes)) === currentVersion(history.present).hash) {
    known = state;
    return;
  }
  if (tried !== state) failed = 0;
  tried = state;
  const { cameToEnd } = await import('./whole.ts');
  if (!cameToEnd(new Uint8Array(await bytes.arrayBuffer())) && ++failed <= PATIENCE) return;
  const before = get().troubles;
  await openIncoming([{ file: bytes, name: file.name }], 'next');
  const unread = get().troubles.find((it) => it.at === 'opening' && !before.includes(it));
  if (unread && ++failed <= PATIENCE) {
    // Half written, without its kind telling: what was said about it is taken back, and it is tried again when it has changed or rested.
    set({ troubles: get().troubles.filter((it) => it !== unread) });
    last = '';
    return;
  }
  failed = 0;
  known = state;
  if (!unread) say(`${file.name} was saved and is read.`);
}

/** Handles are kept beside the works: the browser gives them back after a reload. */
function handles() {
  return openDB('halflight-watch', 1, { upgrade: (database) => void database.createObjectStore('handles') });
}

async function keepHandle(work: string, file: Handle): Promise<void> {
  await (await handles()).put('handles', file, work);
}

import { checkLine } from '@halflight/engine';
import { proxy } from 'comlink';
import { create } from 'zustand';
import { currentVersion, type Version, type Work } from '../document/work.ts';
import type { Progress } from '../picture/desk.ts';
import type { Course, SeenComparison, VersionFile } from '../picture/time-desk.ts';
import { keeper, pictures } from './desks.ts';
import { learn, lineOf } from './learn.ts';
import { get, trouble } from './session.ts';

interface ProgressState {
  /** Numbers of the two versions that are compared; null for the last two. */
  readonly pair: readonly [number, number] | null;
  /** What was found; 'apart' when they show nothing in common. */
  readonly comparison: SeenComparison | 'apart' | null;
  readonly running: Progress | null;
  readonly courses: readonly Course[];
}

export const useProgress = create<ProgressState>(() => ({
  pair: null,
  comparison: null,
  running: null,
  courses: [],
}));

export function choosePair(earlier: number, later: number): void {
  useProgress.setState({ pair: [earlier, later] });
}

/** Puts away what belongs to a work. */
export function leaveProgress(): void {
  stopComparing();
  bitmapOf(useProgress.getState().comparison)?.close();
  useProgress.setState({ pair: null, comparison: null, courses: [] });
}

const bitmapOf = (comparison: ProgressState['comparison']): ImageBitmap | null =>
  comparison === null || comparison === 'apart' ? null : comparison.bitmap;

let wish = 0;

/** Compares two versions of the open work; the newest wish wins. */
export async function compareVersions(earlier: Version, later: Version): Promise<void> {
  const mine = ++wish;
  useProgress.setState({ running: { doing: 'Fetching the files', share: 0 }, comparison: null });
  try {
    const files = [await fileOf(earlier), await fileOf(later)];
    if (mine !== wish) return;
    const tell = (running: Progress): void => {
      if (mine === wish) useProgress.setState({ running });
    };
    const found = await pictures.desk.compare(files[0], files[1], proxy(tell));
    if (mine !== wish || found === 'stopped') {
      if (found !== 'stopped') bitmapOf(found)?.close();
      return;
    }
    useProgress.setState({ comparison: found ?? 'apart', running: null });
  } catch (error) {
    if (mine !== wish) return;
    useProgress.setState({ running: null });
    trouble('reading', (error as Error).message);
  }
}

export function stopComparing(): void {
  wish++;
  useProgress.setState({ running: null });
  void pictures.desk.stopComparing();
}

/** The file of a version: the open picture is known already. */
async function fileOf({ number, name, hash, mediaType }: Version): Promise<VersionFile> {
  const { history, glance } = get();
  const open = glance === null && history !== null && currentVersion(history.present).hash === hash;
  const file = open ? null : await keeper.picture(hash, mediaType);
  if (file === null && !open)
    throw new Error(
      `The picture of version ${number} is no longer in this browser’s store. Nothing else is lost: its numbers stay.`,
    );
  return { hash, name, file };
}

/** Versions that could not be read again here: not asked twice. */
const unreadable = new Set<string>();

/** Fetches the readings of every version; those that have none are read again, one after the other. */
export async function followReadings(work: Work, isWanted: () => boolean): Promise<void> {
  const lines = await Promise.all(
    work.versions.map(async ({ readings }) => {
      const blob = readings ? await keeper.picture(readings, 'application/json') : null;
      return blob === null ? null : blob.text();
    }),
  );
  const courses = await pictures.desk.courses(lines);
  if (!isWanted()) return;
  useProgress.setState({ courses });
  const missing = work.versions.find(
    ({ hash, readings, small }) => !(readings && small) && !unreadable.has(hash),
  );
  if (missing === undefined || !get().writable) return;
  try {
    const version = await fileOf(missing);
    if (version.file === null) return;
    const { facts, seen, small } = await pictures.desk.readVersion(version, work.intent, work.answers);
    const [readings, thumb] = await Promise.all([
      keeper.keep(lineOf(checkLine({ ...seen, picture: facts }, null))),
      keeper.keep(small),
    ]);
    // The work changes by this, and the next one that is missing is asked for then.
    await learn(work.id, missing.hash, { readings, small: thumb });
  } catch {
    unreadable.add(missing.hash);
  }
}

const addresses = new Map<string, string>();

/** The address of a small picture in the store; null when it is not there. */
export async function smallAddress(hash: string): Promise<string | null> {
  const known = addresses.get(hash);
  if (known) return known;
  const blob = await keeper.picture(hash, 'image/webp');
  if (blob === null) return null;
  const address = URL.createObjectURL(blob);
  addresses.set(hash, address);
  return address;
}

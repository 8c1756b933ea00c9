import type { Finding } from '@halflight/engine';
import { currentVersion } from '../document/work.ts';
import type { Seen } from '../picture/desk.ts';
import { baselineInUse } from './baseline.ts';
import { keeper, pictures } from './desks.ts';
import { learnReadings } from './learn.ts';
import { get, set, shownWork, trouble } from './session.ts';

/** Counts openings and closings: an answer that belongs to an earlier picture is thrown away. */
let picture = 0;
let running: Promise<void> | null = null;
let again = false;

/** Reads the open picture against its intent and answers; while one reading runs the newest wish waits. */
export function refreshReadings(): Promise<void> {
  if (running !== null) {
    again = true;
    return running;
  }
  running = (async () => {
    do {
      again = false;
      await readOnce(picture);
    } while (again);
  })().finally(() => {
    running = null;
  });
  return running;
}

/** Forgets what was read: the picture is put away. */
export function forgetReadings(): void {
  picture++;
  running = null;
  again = false;
}

async function readOnce(mine: number): Promise<void> {
  const work = shownWork(get());
  if (!work) return;
  const { glance } = get();
  try {
    if (glance === null) void pictures.desk.takeAsVersion();
    const seen = await pictures.desk.examine(work.intent, work.answers, baselineInUse());
    if (mine !== picture) return;
    set({ seen });
    void findPlaces(seen, mine);
    if (glance !== null) return;
    void learnReadings(work, seen);
    const topFinding = seen.findings[0]?.text ?? null;
    const openNotes = seen.findings.length;
    const { number } = currentVersion(work);
    // A full store may refuse it; what does not get kept there is told by what was done, not by its line.
    await keeper.mark(work.id, { topFinding, openNotes, version: number }).catch(() => undefined);
  } catch (error) {
    if (mine === picture) trouble('reading', `The readings stopped: ${(error as Error).message}`);
  }
}

/** Looks for the places of findings that only give a map, one after the other, after the notes stand. */
async function findPlaces(seen: Seen, mine: number): Promise<void> {
  for (const { key, reading, map, places } of [...seen.findings, ...seen.settled]) {
    if (places !== undefined || map === undefined) continue;
    const found = await pictures.desk.places(reading, map).catch(() => []);
    const now = get().seen;
    if (mine !== picture || now === null) return;
    const add = (finding: Finding): Finding =>
      finding.key === key && finding.map === map && !finding.places ? { ...finding, places: found } : finding;
    set({ seen: { ...now, findings: now.findings.map(add), settled: now.settled.map(add) } });
  }
}

/** Reads one place; `radius` in pixels of the picture. */
export async function readPlace(x: number, y: number, radius: number): Promise<void> {
  const mine = picture;
  const place = await pictures.desk.place(x, y, radius);
  if (mine !== picture) return;
  set({ place, openNote: PLACE_NOTE, said: place.painted ? place.words : 'Nothing is painted here.' });
}

/** Name of the note about the place that was tapped. */
export const PLACE_NOTE = 'place';

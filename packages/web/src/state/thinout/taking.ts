import { currentVersion, isLayered } from '../../document/work.ts';
import { Stopped } from '../../picture/client.ts';
import type { LayerSource } from '../../workers/layers/desk.ts';
import { keeper, pictures } from '../desks.ts';
import { refreshReadings } from '../readings.ts';
import { get as session } from '../session.ts';
import { hold, layersClient, line, tellTrouble } from './holding.ts';
import { isOwn, keptChoices } from './kept.ts';
import { compare, look, lookAway } from './looking.ts';
import { type Arrangement, get, NOTHING, set } from './store.ts';
import { weigh } from './weighing.ts';

/** The version whose layers are being fetched from the store. */
let coming: string | null = null;

/** Reads the layers of the open work, unless they are known; its notes count them then. */
export async function weighOpenWork(): Promise<void> {
  const { history, picture } = session();
  if (history === null || picture === null) return;
  const version = currentVersion(history.present);
  if (!isLayered(version) || coming === version.hash) return;
  if (get().of !== version.hash) {
    coming = version.hash;
    const file = await keeper.picture(version.hash, version.mediaType).catch(() => null);
    coming = null;
    if (file === null || session().picture !== picture) return;
    await take({ kind: 'file', name: version.name, file }, version.hash);
  }
  await tellNotes();
}

/** The notes of the open work count what its layers are worth. */
async function tellNotes(): Promise<void> {
  const { seen, of } = get();
  const { history } = session();
  if (seen === null || history === null || currentVersion(history.present).hash !== of) return;
  await pictures.desk.takeLayers(seen.reading);
  await refreshReadings();
}

/** Forgets layers that belong to another work, or to an earlier picture of this one. */
export function leaveOthers(work: string | null, hash: string | null): void {
  const { of, work: theirs } = get();
  if (of === null) return;
  if (isOwn(of) ? theirs !== work : of !== hash) forget();
}

/**
 * Opens a source and reads its layers; a layered file is weighed as well.
 *
 * @returns false when it can't be read; true also when it was stopped, or another one came meanwhile
 */
export async function take(
  source: LayerSource,
  of: string,
  arrangement: Arrangement | null = null,
): Promise<boolean> {
  forget();
  const history = (arrangement === null && keptChoices(of)) || NOTHING.history;
  set({ of, work: session().history?.present.id ?? null, source, arrangement, history });
  try {
    await hold();
    if (get().source === source && source.kind !== 'pictures') await weigh();
    // Pictures may have been put in another order while they were read.
    if (get().of !== of) return true;
    await look();
    await compare();
    return true;
  } catch (error) {
    if (get().of !== of) return true;
    tellTrouble(error);
    return error instanceof Stopped;
  }
}

/** Puts the layers away, and stops what runs with them. */
export function forget(): void {
  layersClient.stop();
  line.clear();
  lookAway();
  get().picture?.bitmap.close();
  set(NOTHING);
}

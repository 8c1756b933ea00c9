import { proxy } from 'comlink';
import type { BroughtIn, Packed } from '../storage/keeper.ts';
import { keeper } from './desks.ts';
import { askToKeep, keepingSentence } from './keeping.ts';
import { refreshShelf } from './open.ts';
import { savePlace } from './save.ts';
import { get, say, set, trouble } from './session.ts';

/** Whether a file is a dossier or a whole shelf, by its name. */
export function isDossierName(name: string): boolean {
  return /\.(halflight|zip)$/i.test(name);
}

/** Saves the dossier of a work to a place of the artist's choice. */
export function saveDossier(id: string, title: string): Promise<void> {
  return saveAs(`${title}.halflight`, (tell) => keeper.dossier(id, proxy(tell)));
}

/** Saves the whole shelf as one file. */
export function saveShelf(): Promise<void> {
  const today = new Date().toISOString().slice(0, 10);
  return saveAs(`Halflight shelf ${today}.zip`, (tell) =>
    keeper.wholeShelf(proxy((done: number, all: number) => tell(done / all))),
  );
}

async function saveAs(
  name: string,
  make: (tell: (share: number) => void) => Promise<Packed | null>,
): Promise<void> {
  if (get().packing !== null) return;
  const harmless = name.replace(/[\\/:*?"<>|]+/g, ' ');
  const target = await savePlace(harmless);
  if (target === null) return;
  set({ packing: { name: harmless, share: 0 } });
  try {
    const packed = await make((share) => {
      if (get().packing !== null) set({ packing: { name: harmless, share } });
    });
    if (packed === null) throw new Error('There is nothing to save.');
    await target.take({ blob: packed.file, name: harmless });
    say(`“${harmless}” was ${target.words}.`);
    if (packed.missing > 0) {
      const what = packed.missing === 1 ? 'One picture is' : `${packed.missing} pictures are`;
      trouble('shelf', `${what} not in it: the browser’s store has lost them. Add their files again.`);
    }
  } catch (error) {
    const full = (error as Error).name === 'QuotaExceededError';
    trouble('shelf', full ? keepingSentence(error) : `“${harmless}” could not be saved. Try another place.`);
  } finally {
    set({ packing: null });
  }
}

/** Puts the works of dossiers onto the shelf; gives the only one there was, to be opened. */
export async function bringIn(files: readonly { file: Blob; name: string }[]): Promise<string | null> {
  const arrived: { id: string; title: string }[] = [];
  for (const { file, name } of files) {
    set({ opening: { name, progress: { doing: 'Reading the dossier', share: null } } });
    try {
      const brought = await keeper.bringIn(file, name);
      arrived.push(...brought.works, ...brought.there);
      if (brought.works.length > 0) void askToKeep();
      for (const sentence of brought.troubles) trouble('shelf', sentence);
      const sentence = broughtSentence(brought);
      // What came in is seen; that nothing did must be said.
      if (brought.works.length === 0) trouble('shelf', sentence);
      else say(sentence);
    } catch (error) {
      const { name: kind, message } = error as Error;
      trouble('shelf', kind === 'FileTrouble' && message ? message : keepingSentence(error));
    }
  }
  set({ opening: null });
  await refreshShelf();
  return arrived.length === 1 ? arrived[0].id : null;
}

function broughtSentence({ works, there }: BroughtIn): string {
  const titled = (all: BroughtIn['works']): string =>
    all.length === 1 ? `“${all[0].title}” is` : `${all.length} works are`;
  if (works.length === 0 && there.length === 0) return 'No work was in it.';
  if (works.length === 0) return `${titled(there)} on the shelf already.`;
  return `${titled(works)} on the shelf.`;
}

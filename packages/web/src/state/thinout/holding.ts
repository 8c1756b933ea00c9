import { proxy } from 'comlink';
import { Stopped } from '../../picture/client.ts';
import type { LayerSource, ListedPicture } from '../../workers/layers/desk.ts';
import { trouble } from '../session.ts';
import { startLayersClient } from './client.ts';
import { lineOfWork } from './line.ts';
import { get, set } from './store.ts';

export const line = lineOfWork((running) => set({ running }));

/** What the worker holds; null after it was ended: everything is read again before it can be asked. */
let holds: LayerSource | null = null;
export const layersClient = startLayersClient(() => {
  holds = null;
});

/** One after the other: what the worker holds is changed by nobody else. */
let last: Promise<void> = Promise.resolve();

/**
 * Lets the worker hold what is looked at now: whatever is asked of it comes after this. It is read where that is
 * needed; pictures that were only put in another order are not.
 *
 * Rejects with the sentence of what can't be read, with `Stopped` when it was stopped. Another source may be looked at
 * by the time it is done: whoever asked compares.
 */
export function hold(): Promise<void> {
  last = last.then(bring, bring);
  return last;
}

async function bring(): Promise<void> {
  await layersClient.calm();
  const { source } = get();
  if (source === null || source === holds) return;
  // What was put away and is taken again needs its picture again.
  if (get().picture === null || !isArranged(source, holds)) {
    await read(source);
    return;
  }
  const list = await layersClient.run((desk) => desk.arrange(source));
  holds = source;
  if (get().source === source) set({ list });
}

type Pictures = Extract<LayerSource, { kind: 'pictures' }>;

/** Whether a source is made of pictures of another one: in another order, with other modes, some left out. */
export function isArranged(next: LayerSource | null, known: LayerSource | null): next is Pictures {
  if (next?.kind !== 'pictures' || known?.kind !== 'pictures') return false;
  const files = new Map(known.pictures.map(({ name, file }) => [name, file]));
  return next.pictures.every(({ name, file }) => files.get(name) === file);
}

async function read(source: LayerSource): Promise<void> {
  holds = null;
  // While pictures are read their order may change.
  const isLookedAt = (): boolean => get().source === source || isArranged(get().source, source);
  set({ read: new Set(), stopped: false });
  await line.during('Reading the layers', { doing: 'Opening the file', share: null }, async (tell) => {
    const list = await layersClient.run((desk) => desk.open(source));
    if (!isLookedAt()) return;
    set({ list });
    const all = list ? paths(list.layers).length : 2;
    const each = (path: string): void => {
      if (!isLookedAt()) return;
      const read = new Set([...get().read, path]);
      set({ read });
      const name = path.split('/').at(-1) ?? path;
      tell({ doing: `“${name}”, ${read.size} of ${all}`, share: read.size / all });
    };
    const { facts, bitmap, notes } = await layersClient.run((desk) => desk.read(proxy(each)));
    holds = source;
    if (!isLookedAt()) {
      bitmap.close();
      return;
    }
    get().picture?.bitmap.close();
    set({ picture: { facts, bitmap, thumb: new Blob(), remarks: notes } });
  });
}

/** Paths of painted layers, groups apart. */
function paths(list: ListedPicture['layers']): string[] {
  return list.flatMap(({ path, group, children }) => (group ? paths(children) : [path]));
}

/** Says what went wrong; what was only stopped did not. */
export function tellTrouble(error: unknown): void {
  if (error instanceof Stopped || (error as Error).name === 'AbortError') return;
  trouble('reading', (error as Error).message || 'The layers could not be read.');
}

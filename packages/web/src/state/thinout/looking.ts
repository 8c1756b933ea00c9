import { differenceWords } from '../../document/layers.ts';
import { say } from '../session.ts';
import { hold, layersClient, tellTrouble } from './holding.ts';
import { get, set } from './store.ts';

/** Counts wishes to look: only the last one is shown. */
let wanted = 0;

/** Shows or hides a layer, only to look. */
export function turn(path: string): void {
  const { turned } = get();
  set({ turned: turned.includes(path) ? turned.filter((it) => it !== path) : [...turned, path] });
  void look();
}

/** Puts the layers together as they are decided and turned about. */
export async function look(): Promise<void> {
  const mine = ++wanted;
  const { history, turned, arrangement, source, merge } = get();
  merge?.bitmap.close();
  set({ merge: null });
  const asRead = history.present === history.base && turned.length === 0 && arrangement === null;
  if (asRead || source === null || source.kind === 'pair') {
    get().shown?.close();
    set({ shown: null, looking: false });
    return;
  }
  set({ looking: true });
  // Quick presses are looked at together.
  await new Promise((soon) => setTimeout(soon, 30));
  if (mine !== wanted) return;
  try {
    await hold();
    if (mine !== wanted) return;
    const shown = await layersClient.run((desk) => desk.look({ choices: history.present, turned }));
    if (mine !== wanted) {
      shown.close();
      return;
    }
    get().shown?.close();
    set({ shown });
  } catch (error) {
    if (mine === wanted) tellTrouble(error);
  } finally {
    if (mine === wanted) set({ looking: false });
  }
}

/** Looks at nothing any more. */
export function lookAway(): void {
  wanted++;
  const { shown, merge } = get();
  shown?.close();
  merge?.bitmap.close();
  set({ shown: null, merge: null, looking: false });
}

/** Holds pictures against the flat one. */
export async function compare(): Promise<void> {
  const { source } = get();
  if (source?.kind !== 'pictures') return;
  await hold();
  if (get().source !== source) return;
  const difference = source.flat ? await layersClient.run((desk) => desk.flatDifference()) : null;
  if (get().source === source) set({ difference });
}

/** Shows neighbours as they would be as one layer; again, to go back. */
export async function lookMerged(run: readonly string[]): Promise<void> {
  const { merge, history, source } = get();
  if (merge && merge.paths.join('\n') === run.join('\n')) {
    merge.bitmap.close();
    set({ merge: null });
    return;
  }
  set({ merging: run });
  try {
    await hold();
    const made = await layersClient.run((desk) => desk.lookMerged(run, history.present));
    if (get().source !== source || get().merging !== run) {
      made.bitmap.close();
      return;
    }
    get().merge?.bitmap.close();
    set({ merge: { paths: run, ...made } });
    say(`As one layer: ${differenceWords(made.difference)}.`);
  } catch (error) {
    tellTrouble(error);
  } finally {
    if (get().merging === run) set({ merging: null });
  }
}

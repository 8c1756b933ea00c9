import { go, isWorkRoute } from '../app/route.ts';
import type { ShelfEntry } from '../storage/keeper.ts';
import { keeper } from './desks.ts';
import { perform } from './edit.ts';
import { refreshShelf } from './open.ts';
import { get, say, set, useSession } from './session.ts';

/** Takes a work off the shelf. It can come back until the next start, or until its room is needed. */
export async function removeWork(entry: ShelfEntry): Promise<void> {
  const back = await keeper.takeOff(entry.id);
  set({ removed: back ? entry : null });
  say(
    `“${entry.title}” is off the shelf${back ? '. It can be put back.' : ': the full store has its room again.'}`,
  );
  await refreshShelf();
}

/** Puts the last removed work back. */
export async function restoreWork(): Promise<void> {
  const { removed } = get();
  if (removed === null) return;
  await keeper.mark(removed.id, { removed: false });
  set({ removed: null });
  await refreshShelf();
  const back = get().shelf?.some(({ id }) => id === removed.id);
  say(
    back
      ? `“${removed.title}” is back on the shelf.`
      : `“${removed.title}” is gone: the browser’s store needed its room.`,
  );
}

/** Takes a resting work up again: every reading is made anew, and its first note stands open. */
export function takeUp(id: string): void {
  let there = false;
  const stop = useSession.subscribe(({ route, history, seen, opening }) => {
    const here = isWorkRoute(route) && route.work === id;
    there ||= here;
    if (there && !here) return stop();
    if (history?.present.id !== id || seen === null || opening) return;
    stop();
    const { title, state } = history.present;
    if (state === 'resting') perform({ kind: 'setState', state: 'painting' });
    set({ openNote: seen.findings[0]?.key ?? null });
    say(`“${title}” is taken up again.`);
  });
  go({ screen: 'check', work: id });
}

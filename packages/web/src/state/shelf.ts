import type { ShelfEntry } from '../storage/keeper.ts';
import { keeper } from './desks.ts';
import { refreshShelf } from './open.ts';
import { get, say, set } from './session.ts';

/** Takes a work off the shelf. It can come back until the next start. */
export async function removeWork(entry: ShelfEntry): Promise<void> {
  await keeper.mark(entry.id, { removed: true });
  set({ removed: entry });
  say(`“${entry.title}” is off the shelf. It can be put back.`);
  await refreshShelf();
}

/** Puts the last removed work back. */
export async function restoreWork(): Promise<void> {
  const { removed } = get();
  if (removed === null) return;
  await keeper.mark(removed.id, { removed: false });
  set({ removed: null });
  say(`“${removed.title}” is back on the shelf.`);
  await refreshShelf();
}

import type { ShelfEntry } from '../../storage/keeper.ts';

export type Order = 'touched' | 'title' | 'notes';

/** The works that have the words in title, state or note, in an order. */
export function arrange(shelf: readonly ShelfEntry[], query: string, order: Order): ShelfEntry[] {
  const words = query.toLocaleLowerCase().split(/\s+/).filter(Boolean);
  const has = ({ title, state, topFinding }: ShelfEntry): boolean => {
    const text = `${title} ${state} ${topFinding ?? ''}`.toLocaleLowerCase();
    return words.every((word) => text.includes(word));
  };
  return shelf.filter(has).sort(BY[order]);
}

/** The resting work that was not worked on for the longest time; null when none rests. */
export function restedLongest(shelf: readonly ShelfEntry[]): ShelfEntry | null {
  const resting = shelf.filter(({ state }) => state === 'resting');
  return resting.reduce<ShelfEntry | null>(
    (oldest, entry) => (oldest === null || entry.touched < oldest.touched ? entry : oldest),
    null,
  );
}

const BY: Record<Order, (a: ShelfEntry, b: ShelfEntry) => number> = {
  touched: (a, b) => (a.touched < b.touched ? 1 : a.touched > b.touched ? -1 : 0),
  title: (a, b) => a.title.localeCompare(b.title, undefined, { numeric: true }),
  notes: (a, b) => (b.openNotes ?? -1) - (a.openNotes ?? -1),
};

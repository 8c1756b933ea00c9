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

const BY: Record<Order, (a: ShelfEntry, b: ShelfEntry) => number> = {
  touched: (a, b) => (a.touched < b.touched ? 1 : a.touched > b.touched ? -1 : 0),
  title: (a, b) => a.title.localeCompare(b.title, undefined, { numeric: true }),
  notes: (a, b) => (b.openNotes ?? -1) - (a.openNotes ?? -1),
};

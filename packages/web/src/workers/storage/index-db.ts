import { type DBSchema, openDB } from 'idb';
import type { ShelfEntry } from '../../storage/keeper.ts';

interface Schema extends DBSchema {
  works: { key: string; value: ShelfEntry };
}

/** The lines of the shelf. */
export interface ShelfIndex {
  all(): Promise<ShelfEntry[]>;
  put(entry: ShelfEntry): Promise<void>;
  /** Changes a line in one go; nothing happens when there is no such line. */
  change(id: string, patch: Partial<ShelfEntry>): Promise<void>;
  delete(id: string): Promise<void>;
}

/** The index in the browser's database, or in memory where there is none. */
export async function openIndex(): Promise<ShelfIndex> {
  try {
    const db = await openDB<Schema>('halflight', 1, {
      upgrade: (database) => void database.createObjectStore('works', { keyPath: 'id' }),
    });
    return {
      all: () => db.getAll('works'),
      put: async (entry) => void (await db.put('works', entry)),
      change: async (id, patch) => {
        const change = db.transaction('works', 'readwrite');
        const entry = await change.store.get(id);
        if (entry) await change.store.put({ ...entry, ...patch });
        await change.done;
      },
      delete: (id) => db.delete('works', id),
    };
  } catch {
    return memoryIndex();
  }
}

/** An index that lasts as long as the page: where the browser gives no database, and in tests. */
export function memoryIndex(): ShelfIndex {
  const entries = new Map<string, ShelfEntry>();
  return {
    all: async () => [...entries.values()],
    put: async (entry) => void entries.set(entry.id, entry),
    change: async (id, patch) => {
      const entry = entries.get(id);
      if (entry) entries.set(id, { ...entry, ...patch });
    },
    delete: async (id) => void entries.delete(id),
  };
}

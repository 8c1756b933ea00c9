import type { Facts } from '../../document/facts.ts';
import type { Entry } from '../../document/history.ts';
import { bytesOf } from '../../document/time.ts';
import { currentVersion } from '../../document/work.ts';
import type { KeptWork } from '../../storage/keeper.ts';
import { catchUp, type Kept, learn, missed, openKept, write } from '../../storage/kept.ts';
import { folderOf } from '../../storage/places.ts';
import { forgetRemoved, forgetWork, hashesOf, lastLookOf, type Shop } from './shop.ts';

/** What the open work asks of the page around it. */
export interface Around {
  /** Takes the right to write a work; null when another tab has it. */
  lock(id: string): Promise<(() => void) | null>;
  /** Tells when another tab gives that right back; gives what stops the waiting. */
  untilFree(id: string): () => void;
  /** A work was written. */
  written(id: string): void;
  /** Works that were taken off the shelf are gone. */
  forgotten(): void;
}

interface Held {
  readonly id: string;
  kept: Kept;
  readonly release: () => void;
  readonly writable: boolean;
}

/** The one work that a tab has open: it is read and written here alone. */
export interface OpenWork {
  open(id: string): Promise<KeptWork | null>;
  close(): Promise<void>;
  write(entry: Entry): Promise<void>;
  learn(hash: string, facts: Facts): Promise<void>;
  /** Does something that writes; when the store is full, once more after works off the shelf have gone. */
  withRoom<T>(job: () => Promise<T>, spared: () => readonly string[]): Promise<T>;
  /** Writes what a full store refused, now that there may be room. */
  settle(): Promise<void>;
  /** Takes a work off the shelf; false when a full store could not even note that, and it is gone at once. */
  takeOff(id: string): Promise<boolean>;
}

export function openWorkOf(shop: Promise<Pick<Shop, 'files' | 'index'>>, around: Around): OpenWork {
  let open: Held | null = null;
  /** Works that were put away while the store was full: they are held here, with the right to write them. */
  const owed = new Map<string, Held>();
  /** Writes happen one after the other, in the order of the calls. */
  let queue: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(job: () => Promise<T>): Promise<T> => {
    const running = queue.catch(() => undefined).then(job);
    queue = running;
    return running;
  };

  const desk: OpenWork = {
    async open(id) {
      await desk.close();
      const before = owed.get(id);
      if (before) {
        owed.delete(id);
        open = before;
        return told(before);
      }
      const release = await around.lock(id);
      const reading = openKept((await shop).files, folderOf(id), release !== null);
      const kept = await reading.catch((error) => {
        release?.();
        throw error;
      });
      if (kept === null) {
        release?.();
        return null;
      }
      open = { id, kept, release: release ?? around.untilFree(id), writable: release !== null };
      return told(open);
    },

    async close() {
      await queue.catch(() => undefined);
      const held = open;
      open = null;
      if (held === null) return;
      if (!held.writable || !held.kept.behind) return held.release();
      owed.set(held.id, held);
      await desk.settle();
    },

    write(entry) {
      const target = open;
      return inTurn(async () => {
        if (target === null || target !== open) throw new Error('No work is open.');
        if (!target.writable) throw new Error('Another tab writes this work.');
        const { files, index } = await shop;
        const { kept } = target;
        const spared = () => [
          ...hashesOf(kept.history),
          ...(entry.kind === 'do' ? bytesOf(entry.command) : []),
        ];
        try {
          target.kept = await desk.withRoom(() => write(files, folderOf(target.id), kept, entry), spared);
        } catch (error) {
          target.kept = missed(kept, entry);
          throw error;
        }
        // The line of the shelf may lag: the work itself is written.
        const touched = new Date().toISOString();
        await index.change(target.id, { ...lineOf(target.kept), touched }).catch(() => undefined);
        around.written(target.id);
      });
    },

    learn(hash, facts) {
      const target = open;
      return inTurn(async () => {
        if (target === null || target !== open || !target.writable) return;
        const { files, index } = await shop;
        target.kept = await learn(files, folderOf(target.id), target.kept, hash, facts);
        await index.change(target.id, { hashes: hashesOf(target.kept.history) }).catch(() => undefined);
      });
    },

    async withRoom(job, spared) {
      try {
        return await job();
      } catch (error) {
        if ((error as Error).name !== 'QuotaExceededError') throw error;
        if (!(await forgetRemoved(await shop, [...spared(), ...needed()]))) throw error;
        around.forgotten();
        return job();
      }
    },

    async takeOff(id) {
      const { index } = await shop;
      const noted = await index.change(id, { removed: true }).then(
        () => true,
        () => false,
      );
      if (!noted) await forgetWork(await shop, id, needed());
      await desk.settle();
      return noted;
    },

    async settle() {
      const { files, index } = await shop;
      for (const [id, held] of owed) {
        try {
          const kept = await desk.withRoom(
            () => catchUp(files, folderOf(id), held.kept),
            () => [],
          );
          if (owed.get(id) !== held) continue;
          owed.delete(id);
          held.release();
          await index.change(id, lineOf(kept)).catch(() => undefined);
          around.written(id);
        } catch {
          // Still no room: it is tried again when works go, and opened from here until then.
        }
      }
    },
  };
  /** What the works that are held here need. */
  function needed(): string[] {
    return [...owed.values(), ...(open ? [open] : [])].flatMap(({ kept }) => hashesOf(kept.history));
  }
  return desk;
}

const told = ({ kept, writable }: Held): KeptWork => {
  const { base, done, undone } = kept.history;
  return { base, done, undone, writable };
};

/** What the shelf tells of a work that was written. */
function lineOf({ history }: Kept) {
  const { present } = history;
  const { title, state } = present;
  const version = currentVersion(present).number;
  return { title, state, version, lastLook: lastLookOf(present), hashes: hashesOf(history) };
}

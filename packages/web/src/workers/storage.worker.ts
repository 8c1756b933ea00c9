import { expose } from 'comlink';
import { currentVersion } from '../document/work.ts';
import type { Keeper } from '../storage/keeper.ts';
import { type Kept, keepNew, openKept, write } from '../storage/kept.ts';
import { entryOf, folderOf, openShop, pictureOf } from './storage/shop.ts';

const shop = openShop();

let open: { id: string; kept: Kept; release: () => void; writable: boolean } | null = null;
/** Writes happen one after the other, in the order of the calls. */
let queue: Promise<unknown> = Promise.resolve();

const keeper: Keeper = {
  async state() {
    const { lasting } = await shop;
    const { usage, quota } = await navigator.storage.estimate().catch(() => ({}) as StorageEstimate);
    const promised = await navigator.storage.persisted().catch(() => false);
    return { lasting, promised, used: usage ?? null, allowed: quota ?? null };
  },

  async shelf() {
    return (await (await shop).index.all()).filter((entry) => !entry.removed);
  },

  async hashOf(file) {
    const digest = await crypto.subtle.digest('SHA-256', await file.arrayBuffer());
    return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
  },

  async keepPicture(hash, file) {
    const { files } = await shop;
    const there = await files.size(pictureOf(hash));
    if (there === file.size) return;
    try {
      await files.write(pictureOf(hash), new Uint8Array(await file.arrayBuffer()));
    } catch (error) {
      await files.remove(pictureOf(hash)).catch(() => undefined);
      throw error;
    }
  },

  async create(work, picture, thumb) {
    await keeper.keepPicture(currentVersion(work).hash, picture);
    const { files, index } = await shop;
    await keepNew(files, folderOf(work.id), work);
    await index.put(entryOf(work, thumb));
  },

  async open(id) {
    await keeper.close();
    const kept = await openKept((await shop).files, folderOf(id));
    if (kept === null) return null;
    const release = await lock(id);
    open = { id, kept, release: release ?? (() => undefined), writable: release !== null };
    const { base, done, undone } = kept.history;
    return { base, done, undone, writable: open.writable };
  },

  async close() {
    await queue.catch(() => undefined);
    open?.release();
    open = null;
  },

  write(entry) {
    const target = open;
    const job = queue
      .catch(() => undefined)
      .then(async () => {
        if (target === null || target !== open) throw new Error('No work is open.');
        if (!target.writable) throw new Error('Another tab writes this work.');
        const { files, index } = await shop;
        target.kept = await write(files, folderOf(target.id), target.kept, entry);
        const { title, state } = target.kept.history.present;
        await index.change(target.id, { title, state, touched: new Date().toISOString() });
      });
    queue = job;
    return job;
  },

  async picture(hash, mediaType) {
    const bytes = await (await shop).files.read(pictureOf(hash));
    return bytes && new Blob([bytes], { type: mediaType });
  },

  async mark(id, change) {
    await (await shop).index.change(id, change);
  },
};

/** Holds the right to write a work until released; null when another tab has it. */
function lock(id: string): Promise<(() => void) | null> {
  if (!('locks' in navigator)) return Promise.resolve(() => undefined);
  return new Promise((resolve) => {
    void navigator.locks.request(`halflight:${id}`, { ifAvailable: true }, (held) => {
      if (held === null) return resolve(null);
      return new Promise<void>((release) => resolve(() => release()));
    });
  });
}

expose(keeper);

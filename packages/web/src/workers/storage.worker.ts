import { expose, proxy } from 'comlink';
import { currentVersion, thingsOf } from '../document/work.ts';
import { CHANNEL, type Keeper, type News, type Packed } from '../storage/keeper.ts';
import { keepNew, openKept } from '../storage/kept.ts';
import { folderOf, pictureOf } from '../storage/places.ts';
import { openWorkOf } from './storage/open-work.ts';
import { entryOf, entryWithNotes, openShop } from './storage/shop.ts';

const shop = openShop();

/** Tells the other tabs what has changed. */
const channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel(CHANNEL) : null;
const tell = (news: News): void => channel?.postMessage(news);

const desk = openWorkOf(shop, {
  lock,
  untilFree,
  written: (id) => tell({ kind: 'written', id }),
  forgotten: () => {
    room.asked = false;
    tell({ kind: 'shelf' });
  },
});

/** The store is tight when it would not take ten more pictures of the last one's size, or this: our default. */
const LEAST_ROOM = 64e6;
const PICTURES = 10;
const room = { lastPicture: 0, asked: false, tight: false };

const keeper: Keeper = {
  async state() {
    const { lasting, files } = await shop;
    if (lasting && !room.asked) {
      room.asked = true;
      room.tight = !(await files
        .hasRoom(Math.max(LEAST_ROOM, PICTURES * room.lastPicture))
        .catch(() => true));
    }
    // Some browsers have no manager of storage at all.
    const manager = navigator.storage as StorageManager | undefined;
    const { usage, quota } = (await manager?.estimate().catch(() => null)) ?? ({} as StorageEstimate);
    const promised = (await manager?.persisted().catch(() => false)) ?? false;
    return { lasting, promised, tight: room.tight, used: usage ?? null, allowed: quota ?? null };
  },

  async shelf() {
    return (await (await shop).index.all()).filter((entry) => !entry.removed);
  },

  async hashOf(file) {
    const { hashOfBlob } = await import('@halflight/files/dossier');
    return hashOfBlob(file);
  },

  async keepPicture(hash, file) {
    const { files } = await shop;
    const there = await files.size(pictureOf(hash));
    if (there === file.size) return;
    // Piece by piece: a large picture is never held whole. What was written of one that fails is removed.
    const { eachPiece } = await import('@halflight/files/dossier');
    const put = async (): Promise<void> => {
      const sink = (await files.sink(pictureOf(hash))).getWriter();
      try {
        await eachPiece(file, (piece) => sink.write(piece));
        await sink.close();
      } catch (error) {
        await sink.abort(error).catch(() => undefined);
        throw error;
      }
    };
    await desk.withRoom(put, () => [hash]);
    Object.assign(room, { lastPicture: file.size, asked: false });
  },

  async create(work, picture, thumb) {
    await keeper.keepPicture(currentVersion(work).hash, picture);
    const { files, index } = await shop;
    await desk.withRoom(
      () => keepNew(files, folderOf(work.id), work),
      () => thingsOf(work),
    );
    await index.put(entryOf(work, thumb));
    tell({ kind: 'shelf' });
  },

  open: (id) => desk.open(id),
  close: () => desk.close(),

  async look(id) {
    const kept = await openKept((await shop).files, folderOf(id));
    if (kept === null) return null;
    const { base, done, undone } = kept.history;
    return { base, done, undone };
  },

  write: (entry) => desk.write(entry),
  learn: (hash, facts) => desk.learn(hash, facts),

  async picture(hash, mediaType) {
    const file = await (await shop).files.blob(pictureOf(hash));
    return file?.slice(0, file.size, mediaType) ?? null;
  },

  async mark(id, change) {
    await (await shop).index.change(id, change);
    tell({ kind: 'shelf' });
  },

  async takeOff(id) {
    const noted = await desk.takeOff(id);
    room.asked = false;
    tell({ kind: 'shelf' });
    return noted;
  },

  async keep(bytes) {
    const hash = await keeper.hashOf(bytes);
    await keeper.keepPicture(hash, bytes);
    return hash;
  },

  async dossier(id, onProgress) {
    const { files } = await shop;
    const kept = await openKept(files, folderOf(id));
    if (kept === null) return null;
    const { writeWork } = await import('../storage/dossiers.ts');
    const { fileName } = await import('@halflight/files/dossier');
    const work = kept.history.present;
    let missing = 0;
    return pack(`${fileName(work.title)}.halflight`, async (sink) => {
      missing = await writeWork(files, work, sink, onProgress);
      return missing;
    });
  },

  async wholeShelf(onProgress) {
    const { files } = await shop;
    const entries = await keeper.shelf();
    if (entries.length === 0) return null;
    const { writeWork } = await import('../storage/dossiers.ts');
    const { writeShelfFile } = await import('@halflight/files/dossier');
    const now = new Date().toISOString();
    let missing = 0;
    async function* parts() {
      for (const [index, { id, title }] of entries.entries()) {
        onProgress?.(index, entries.length);
        const kept = await openKept(files, folderOf(id));
        if (kept === null) {
          missing++;
          continue;
        }
        const work = kept.history.present;
        yield {
          name: title,
          write: async (sink: WritableStream<Uint8Array>) => {
            missing += await writeWork(files, work, sink);
          },
        };
      }
    }
    return pack(`Halflight shelf ${now.slice(0, 10)}.zip`, async (sink) => {
      await writeShelfFile(sink, parts(), now);
      return missing;
    });
  },

  async bringIn(file, name) {
    const { files, index } = await shop;
    const { bringInAll } = await import('../storage/dossiers.ts');
    const { blobSource } = await import('@halflight/files/dossier');
    const works: { id: string; title: string }[] = [];
    const there: { id: string; title: string }[] = [];
    const troubles: string[] = [];
    await bringInAll(
      files,
      blobSource(file, name),
      blobSource,
      async (brought) => {
        const { id, title } = brought.work;
        troubles.push(...brought.troubles);
        const known = (await index.all()).find((entry) => entry.id === id);
        if (brought.there && known) {
          there.push({ id, title });
          await index.change(id, { removed: false });
        } else {
          works.push({ id, title });
          await index.put(await entryWithNotes(files, brought.work));
        }
      },
      (sentence) => troubles.push(sentence),
    );
    room.asked = false;
    tell({ kind: 'shelf' });
    return { works, there, troubles };
  },

  async ofClass() {
    const { openClassKeeper } = await import('../storage/class.ts');
    const { applyToClass } = await import('../state/class-document.ts');
    const { files } = await shop;
    return proxy(
      openClassKeeper(
        files,
        () => lock('class'),
        (base, done) => done.reduce(applyToClass, base),
      ),
    );
  },
};

/** Tells when nobody writes a work any more, however the other tab ended; gives what stops the waiting. */
function untilFree(id: string): () => void {
  const waiting = new AbortController();
  navigator.locks
    .request(`halflight:${id}`, { signal: waiting.signal }, () => tell({ kind: 'free', id }))
    .catch(() => undefined);
  return () => waiting.abort();
}

/** Makes a file in the store for the artist to save; the one made before goes. */
async function pack(
  name: string,
  write: (sink: WritableStream<Uint8Array>) => Promise<number>,
): Promise<Packed | null> {
  const { files } = await shop;
  await files.remove('outgoing');
  const path = `outgoing/${crypto.randomUUID()}`;
  const missing = await write(await files.sink(path));
  const file = await files.blob(path);
  return file && { file, name, missing };
}

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

import type { ClassCommand, ClassDocument } from '../state/class-document.ts';
import type { KeptReading } from '../state/class-reading.ts';
import type { Files } from './files.ts';
import { seal, unseal } from './kept.ts';

/** A class with its history, as it is kept. */
export interface KeptClass {
  readonly base: ClassDocument;
  readonly done: readonly ClassCommand[];
  readonly undone: readonly ClassCommand[];
}

/** The pictures that are kept of a work beside its file: for the plane, for the wall and pages, and edited. */
export type ClassPicture = 'small' | 'page' | 'after';

/** Calls about the class that is kept in this browser. Every promise resolves when it is on disk. */
export interface ClassKeeper {
  /** `writable` is false when another tab has the class open. */
  open(): Promise<{ kept: KeptClass | null; readings: Record<string, KeptReading>; writable: boolean }>;
  /** Lets another tab write the class. */
  close(): Promise<void>;
  write(kept: KeptClass): Promise<void>;
  keepFile(id: string, file: Blob): Promise<void>;
  file(id: string, mediaType: string): Promise<Blob | null>;
  keepReading(id: string, reading: KeptReading): Promise<void>;
  keepPicture(kind: ClassPicture, name: string, picture: Blob): Promise<void>;
  picture(kind: ClassPicture, name: string): Promise<Blob | null>;
  /** Puts the whole class away for good. */
  clear(): Promise<void>;
}

/** Commands that can be undone over a reload; older ones become part of the base. */
const UNDO_LIMIT = 300;
const FOLDER = 'class';
const SLOTS = ['a', 'b'] as const;

const encoder = new TextEncoder();
const decoder = new TextDecoder();

/**
 * Keeps a class in files. The document is written whole, with a checksum and a number, over the older of two places:
 * what is torn by a crash is known by its checksum, and the other one is there.
 *
 * @param lock holds the right to write; null when another tab has it
 */
export function openClassKeeper(
  files: Files,
  lock: () => Promise<(() => void) | null>,
  fold: (base: ClassDocument, done: readonly ClassCommand[]) => ClassDocument,
): ClassKeeper {
  let number = 0;
  let release: (() => void) | null = null;
  let queue: Promise<unknown> = Promise.resolve();
  const pathOf = (kind: string, name: string): string => `${FOLDER}/${kind}/${name}`;

  const bytesOf = async (path: string, mediaType: string): Promise<Blob | null> => {
    const blob = await files.blob(path);
    return blob?.slice(0, blob.size, mediaType) ?? null;
  };
  const inTurn = <T>(job: () => Promise<T>): Promise<T> => {
    const running = queue.catch(() => undefined).then(job);
    queue = running;
    return running;
  };

  return {
    async open() {
      release ??= await lock();
      const all = await Promise.all(SLOTS.map((slot) => readSealed(files, `${FOLDER}/${slot}`)));
      const slots = all.filter(isSlot).sort((a, b) => b.number - a.number);
      const kept = slots[0] ?? null;
      number = kept?.number ?? 0;
      const readings: Record<string, KeptReading> = {};
      const text = JSON.stringify(kept);
      for (const id of await files.list(`${FOLDER}/reading`)) {
        // Undo may bring a work back; what nothing names any more goes.
        if (release !== null && !text.includes(id)) await forget(files, id);
        else {
          const reading = (await readSealed(files, pathOf('reading', id))) as KeptReading | null;
          if (reading) readings[id] = reading;
        }
      }
      return { kept, readings, writable: release !== null };
    },

    async close() {
      await queue.catch(() => undefined);
      release?.();
      release = null;
    },

    write(kept) {
      return inTurn(async () => {
        if (release === null) throw new Error('Another tab has this class open.');
        const old = Math.max(0, kept.done.length - UNDO_LIMIT);
        const base = old === 0 ? kept.base : fold(kept.base, kept.done.slice(0, old));
        const whole = { ...kept, base, done: kept.done.slice(old), number: number + 1 };
        await writeSealed(files, `${FOLDER}/${SLOTS[whole.number % 2]}`, whole);
        number = whole.number;
      });
    },

    async keepFile(id, file) {
      const path = pathOf('file', id);
      if ((await files.size(path)) === file.size) return;
      try {
        await files.write(path, new Uint8Array(await file.arrayBuffer()));
      } catch (error) {
        await files.remove(path).catch(() => undefined);
        throw error;
      }
    },

    file: (id, mediaType) => bytesOf(pathOf('file', id), mediaType),

    keepReading: (id, reading) => writeSealed(files, pathOf('reading', id), reading),

    async keepPicture(kind, name, picture) {
      await files.write(pathOf(kind, name), new Uint8Array(await picture.arrayBuffer()));
    },

    picture: (kind, name) => bytesOf(pathOf(kind, name), 'image/jpeg'),

    clear: () =>
      inTurn(async () => {
        await files.remove(FOLDER);
        number = 0;
      }),
  };
}

async function forget(files: Files, id: string): Promise<void> {
  for (const kind of ['reading', 'file', 'small', 'page', 'after'])
    await files.remove(`${FOLDER}/${kind}/${id}`);
}

function writeSealed(files: Files, path: string, value: unknown): Promise<void> {
  return files.write(path, encoder.encode(seal(JSON.stringify(value))));
}

/** The value of a sealed file; null when there is none or it is torn. */
async function readSealed(files: Files, path: string): Promise<unknown> {
  const bytes = await files.read(path);
  const text = bytes && unseal(decoder.decode(bytes));
  return text ? JSON.parse(text) : null;
}

function isSlot(value: unknown): value is KeptClass & { number: number } {
  const { base } = (value ?? {}) as Partial<KeptClass>;
  return base?.schema === 'halflight/class@1';
}

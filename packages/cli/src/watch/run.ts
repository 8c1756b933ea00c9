import { stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { openCodec } from '@halflight/files/node';
import chokidar from 'chokidar';
import { isPictureName } from '../baseline/pictures.ts';
import { tellTrouble } from '../check/outcome.ts';
import { readBaseline, readIntent, reasonOf } from '../inputs.ts';
import { styleOf } from '../terminal/style.ts';
import { EXIT } from '../trouble.ts';
import { readSave, type Save, type WatchWish } from './read.ts';
import { saveLine, saveText } from './text.ts';

export interface WatchOptions {
  readonly intent?: string;
  readonly baseline?: string;
  readonly json?: boolean;
  readonly limit: number;
}

/** How long a file must keep its size before it is read, and how often that is looked at, in milliseconds. */
const STEADY = { stabilityThreshold: 400, pollInterval: 100 };

/** Reads a picture, or the pictures of a folder, at every save until a signal ends it; gives the exit code. */
export async function watch(path: string, options: WatchOptions): Promise<number> {
  const intent = await readIntent(options.intent);
  const baseline = await readBaseline(options.baseline);
  const facts = await stat(path).catch((error) => {
    process.stderr.write(`“${path}” can’t be watched: ${reasonOf(error)}. Check the name and the folder.\n`);
    return null;
  });
  if (facts === null) return EXIT.unread;
  const folder = facts.isDirectory();
  const codec = await openCodec();
  const reader = openReader(
    { codec, intent, baseline, limitMegapixels: options.limit },
    options.json === true,
  );
  const watcher = chokidar.watch(path, {
    // A file is read once at the start, so that the first save can be compared; a folder may hold hundreds.
    ignoreInitial: folder,
    awaitWriteFinish: STEADY,
    atomic: true,
    depth: 0,
    ignored: (name, facts) => folder && facts?.isFile() === true && !isPictureName(name),
  });
  watcher.on('add', reader.saved).on('change', reader.saved);
  watcher.on('unlink', (gone) => {
    process.stderr.write(`“${basename(gone)}” is gone; it is read again when it comes back.\n`);
  });
  watcher.on('error', (error) => {
    process.stderr.write(`Watching stopped for a part: ${reasonOf(error)}.\n`);
  });
  watcher.on('ready', () => {
    process.stderr.write(
      folder
        ? `Every picture that is saved in “${path}” is read. Ctrl+C ends it.\n`
        : `“${basename(path)}” is read at every save. Ctrl+C ends it.\n`,
    );
  });
  await new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, resolve);
  });
  await watcher.close();
  await reader.close();
  codec.close();
  return EXIT.done;
}

/** Reads saves one after the other; of several that wait for one file only the newest is read. */
function openReader(
  wish: WatchWish,
  json: boolean,
): { saved: (path: string) => void; close: () => Promise<void> } {
  const style = styleOf(process.stdout);
  const last = new Map<string, Save>();
  const waiting = new Set<string>();
  let running: Promise<void> | null = null;
  let closed = false;

  const readOne = async (path: string): Promise<void> => {
    const name = basename(path);
    try {
      const given = () => closed || waiting.has(path);
      const save = await readSave(path, name, last.get(path) ?? null, wish, given);
      if (save === null || closed) return;
      last.set(path, save);
      for (const note of save.before === null ? save.notes : []) process.stderr.write(`${note}\n`);
      const now = new Date();
      const text = json
        ? `${saveLine(save, now.toISOString())}\n`
        : saveText(save, now.toTimeString().slice(0, 8), style);
      process.stdout.write(text);
    } catch (error) {
      tellTrouble(error, name);
    }
  };
  const run = async (): Promise<void> => {
    for (const path of waiting) {
      waiting.delete(path);
      if (!closed) await readOne(path);
    }
    running = null;
  };
  return {
    saved(path) {
      waiting.add(path);
      running ??= run();
    },
    async close() {
      closed = true;
      await running;
    },
  };
}

import { existsSync } from 'node:fs';
import { type FileHandle, mkdir, open, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { byFileName } from '@halflight/engine';
import { writeAtomically } from '@halflight/files/node';
import { dossierFile, type Entry, pageFile, type RunHead, smallFile } from './entry.ts';

/** Folder of a run's journal inside its output. */
export const JOURNAL = 'journal';
const ENTRIES = 'entries.jsonl';

/** What a run has done so far. */
export interface Journal {
  readonly folder: string;
  readonly head: RunHead | null;
  readonly entries: readonly Entry[];
}

/**
 * Reads the journal in an output folder: whatever was finished before a kill. A last line that was being written is
 * left away, and so are works whose pictures are missing.
 */
export async function readJournal(out: string): Promise<Journal> {
  const folder = join(out, JOURNAL);
  const text = await readFile(join(folder, ENTRIES), 'utf8').catch(() => '');
  const [head, ...entries] = text
    .slice(0, text.lastIndexOf('\n') + 1)
    .split('\n')
    .flatMap((line) => parsed(line) ?? []);
  if (!isHead(head)) return { folder, head: null, entries: [] };
  // The last word on a file counts.
  const byName = new Map((entries as Entry[]).map((entry) => [entry.name, entry]));
  return { folder, head, entries: [...byName.values()].filter((entry) => isWhole(folder, entry)) };
}

function parsed(line: string): unknown {
  try {
    return line === '' ? null : JSON.parse(line);
  } catch {
    return null;
  }
}

function isHead(value: unknown): value is RunHead {
  return (value as RunHead | undefined)?.schema === 'halflight/class-journal@1';
}

function isWhole(folder: string, { id, trouble, dossier }: Entry): boolean {
  if (trouble !== undefined) return true;
  const files = [pageFile(id), smallFile(id), ...(dossier ? [dossierFile(id)] : [])];
  return files.every((file) => existsSync(join(folder, file)));
}

/** A journal that grows: what was added is on the disk before the next work is told to be done. */
export interface OpenJournal {
  add(entry: Entry): Promise<void>;
  close(): Promise<void>;
}

/** Begins a journal with what is taken over from an earlier run. */
export async function beginJournal(out: string, head: RunHead, kept: readonly Entry[]): Promise<OpenJournal> {
  const path = await writeJournal(out, { ...head, complete: false }, kept);
  const file: FileHandle = await open(path, 'a');
  let last: Promise<void> = Promise.resolve();
  return {
    add(entry) {
      // One after the other, each line in one piece.
      last = last.then(async () => {
        await file.appendFile(`${JSON.stringify(entry)}\n`);
        await file.datasync();
      });
      return last;
    },
    async close() {
      await last.catch(() => {});
      await file.close();
    },
  };
}

/** Writes a journal whole, sorted by name: however a run came to its end, the same bytes. */
export async function writeJournal(out: string, head: RunHead, entries: readonly Entry[]): Promise<string> {
  const folder = join(out, JOURNAL);
  await mkdir(folder, { recursive: true });
  const sorted = [...entries].sort((a, b) => byFileName(a.name, b.name));
  const path = join(folder, ENTRIES);
  const text = [head, ...sorted].map((line) => `${JSON.stringify(line)}\n`).join('');
  await writeAtomically(path, new TextEncoder().encode(text));
  return path;
}

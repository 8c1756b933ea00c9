import { mkdir, readdir, readFile } from 'node:fs/promises';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { byFileName, type Intent, seriesMeasures } from '@halflight/engine';
import { titleFromName } from '@halflight/files';
import { readBytes } from '@halflight/files/node';
import type { NamesShown } from '@halflight/pages';
import { lineOf } from '../check/line.ts';
import type { Wish } from '../check/look.ts';
import { troubleOf } from '../check/outcome.ts';
import { openProcesses } from '../check/pool.ts';
import { readBaseline, readIntent, writableFolder } from '../inputs.ts';
import { openProgress } from '../terminal/progress.ts';
import { styleOf } from '../terminal/style.ts';
import { EXIT, WrongUse, withTrouble } from '../trouble.ts';
import { ADVICE } from '../words.ts';
import type { Entry, RunHead } from './entry.ts';
import { type Part, partOf, worksIn } from './files.ts';
import { type ClassSummary, finish, writeReadings } from './finish.ts';
import { beginJournal, JOURNAL, readJournal, writeJournal } from './journal.ts';
import { type ClassTask, hashOf, idOf } from './read.ts';
import { PLANE } from './series.ts';
import { classText } from './text.ts';

/** How pages and overview are made. */
export interface PageOptions {
  readonly out: string;
  readonly names: NamesShown;
  readonly pdf?: boolean;
  readonly plane?: string;
  readonly json?: boolean;
}

export interface ClassOptions extends PageOptions {
  readonly part?: Part;
  readonly intent?: string;
  readonly baseline?: string;
  readonly title?: string;
  readonly dossiers?: boolean;
  readonly limit: number;
}

/** Reads all works of a folder, or a part of them, and writes readings and pages; gives the exit code. */
export async function readClass(folder: string, options: ClassOptions): Promise<number> {
  const plane = planeOf(options.plane);
  const part = options.part ?? null;
  const works = partOf(await worksIn(folder), part);
  const intent = await readIntent(options.intent);
  const baseline = await readBaseline(options.baseline);
  await keepApart(folder, options.out);
  const wish: Wish = { intent, baseline, limitMegapixels: options.limit, maps: null };
  const head: RunHead = {
    schema: 'halflight/class-journal@1',
    settings: await settingsOf(wish),
    title: options.title ?? titleFromName(basename(resolve(folder))),
    assignment: assignmentOf(intent),
    part: part && `${part.k}/${part.n}`,
    complete: false,
  };
  let unread = 0;
  const code = await withTrouble(async () => {
    const entries = await readAll(works, wish, head, options);
    unread = entries.filter(({ trouble }) => trouble !== undefined).length;
    if (part) {
      await writeReadings(options.out, entries);
      await writeJournal(options.out, { ...head, complete: true }, entries);
      process.stderr.write(
        `Part ${part.k} of ${part.n} is done: ${entries.length} works. “halflight class merge” puts the parts together.\n`,
      );
      if (options.json) for (const { line } of entries) process.stdout.write(`${line}\n`);
    } else
      tell(
        await finish(options.out, head, entries, { ...options, pdf: options.pdf === true, plane }),
        options,
      );
  });
  return code === EXIT.done && unread > 0 ? EXIT.unread : code;
}

/** Prints what was found of a class. */
export function tell(summary: ClassSummary, { json, out }: PageOptions): void {
  process.stdout.write(
    json
      ? `${JSON.stringify(summary)}\n`
      : `${classText(summary, out, styleOf(process.stdout))}\n${ADVICE}\n`,
  );
}

/** Reads every work that an earlier run did not finish with the same bytes and settings. */
async function readAll(
  works: readonly string[],
  wish: Wish,
  head: RunHead,
  { out, dossiers = false }: ClassOptions,
): Promise<Entry[]> {
  const before = await readJournal(out);
  const same = before.head?.settings === head.settings;
  const known = new Map(same ? before.entries.map((entry) => [entry.name, entry]) : []);
  const kept: Entry[] = [];
  const open: string[] = [];
  for (const path of works) {
    const entry = known.get(basename(path));
    if (entry && entry.dossier === dossiers && (await isUnchanged(path, entry))) kept.push(entry);
    else open.push(path);
  }
  if (kept.length > 0 && open.length > 0)
    process.stderr.write(`${kept.length} of ${works.length} works are read already; the rest follows.\n`);
  const journal = await beginJournal(out, head, kept);
  const leave = tellWhenStopped();
  const progress = openProgress(open.length);
  const pool = openProcesses(new URL('./worker.js', import.meta.url), open.length);
  const read = async (path: string): Promise<Entry> => {
    const name = basename(path);
    const task: ClassTask = { path, folder: join(out, JOURNAL), dossier: dossiers, wish };
    // A worker that dies (out of memory) takes only its own picture with it.
    const entry: Entry = await pool.run(task).catch((error) => unreadEntry(name, error));
    await journal.add(entry);
    progress.step(name);
    if (entry.trouble) {
      progress.pause();
      process.stderr.write(`${entry.trouble}\n`);
    }
    return entry;
  };
  try {
    const fresh = await Promise.all(open.map(read));
    return [...kept, ...fresh].sort((a, b) => byFileName(a.name, b.name));
  } finally {
    progress.end();
    leave();
    await pool.destroy();
    await journal.close();
  }
}

/** Broken files are tried again: a disk or a memory may have been full. */
async function isUnchanged(path: string, { trouble, sha256 }: Entry): Promise<boolean> {
  if (trouble !== undefined) return false;
  const bytes = await readBytes(path).catch(() => null);
  return bytes !== null && hashOf(bytes) === sha256;
}

function unreadEntry(name: string, error: unknown): Entry {
  const trouble = troubleOf(error, name);
  return {
    name,
    id: idOf(name, ''),
    sha256: '',
    modified: new Date(0).toISOString(),
    line: lineOf({ name, trouble }),
    trouble: `${trouble.sentence} ${trouble.todo}`,
    strong: [],
    notes: [],
    dossier: false,
  };
}

/** Ctrl+C needs no care of its own, because every finished work is on the disk; it is only told. */
function tellWhenStopped(): () => void {
  const stop = (): void => {
    process.stderr.write('\nStopped. What is read is kept: the same command goes on from there.\n');
    process.exit(EXIT.unread);
  };
  process.once('SIGINT', stop).once('SIGTERM', stop);
  return () => void process.off('SIGINT', stop).off('SIGTERM', stop);
}

/** Everything beside the picture that decides what its readings are; the program itself is a part of it. */
async function settingsOf({ intent, baseline, limitMegapixels }: Wish): Promise<string> {
  const parts = [await programHash(), intent, baseline, limitMegapixels];
  return hashOf(new TextEncoder().encode(JSON.stringify(parts)));
}

/** Hash of the readings' own code: what another release read is not taken over, nor merged with what this one reads. */
async function programHash(): Promise<string> {
  const folder = dirname(fileURLToPath(import.meta.resolve('@halflight/engine')));
  const files = (await readdir(folder, { recursive: true })).filter((name) => name.endsWith('.js')).sort();
  const hashes = await Promise.all(files.map(async (name) => hashOf(await readFile(join(folder, name)))));
  return hashOf(new TextEncoder().encode(hashes.join()));
}

/** What the intent says in words. */
const assignmentOf = ({ feel }: Intent): string => feel ?? '';

/** Two numbers that works are placed by. */
export function planeOf(text: string | undefined): readonly string[] {
  if (text === undefined) return PLANE;
  const names = text.split(',').map((name) => name.trim());
  const known = seriesMeasures().map(({ name }) => name);
  const wrong = names.find((name) => !known.includes(name));
  if (names.length !== 2 || wrong !== undefined)
    throw new WrongUse(
      `${wrong ? `There is no number “${wrong}”` : 'The plane wants two numbers, like mood.warmCool,mood.key'}. There are: ${known.join(', ')}.`,
    );
  return names;
}

/** The output must not be taken for works the next time. */
async function keepApart(folder: string, out: string): Promise<void> {
  if (relative(resolve(folder), resolve(out)) === '')
    throw new WrongUse('--out is the folder of the works itself. Name another one.');
  await writableFolder(out);
  await mkdir(join(out, JOURNAL), { recursive: true });
}

import { type Facts, withFacts } from '../document/facts.ts';
import { begin, type Entry, type History, rebuild, step } from '../document/history.ts';
import { asEntry, asSnapshot, type Snapshot } from '../document/schema.ts';
import type { Work } from '../document/work.ts';
import { crc32 } from './crc32.ts';
import type { Files } from './files.ts';

/**
 * How a work is kept so that a crash at any byte loses at most what was being written.
 *
 * A folder holds two snapshots and a journal. Every command is one line added to the journal: checksum,
 * number, JSON. Now and then the whole is written over the *older* snapshot, then the journal is emptied.
 * A torn snapshot fails its checksum and the other one is taken; a torn line ends the journal; lines that a
 * snapshot already holds are known by their number.
 */
export interface Kept {
  readonly history: History;
  /** Number of the last line that was written. */
  readonly line: number;
  /** Lines in the journal since the last snapshot. */
  readonly pending: number;
  /** Where the next snapshot goes. */
  readonly slot: 'a' | 'b';
  /** True when the newest entries could not be written: the next writing brings the whole. */
  readonly behind?: boolean;
}

/** After this many lines the journal is folded into a snapshot. */
const JOURNAL_LIMIT = 200;
/** Commands that can be undone over a reload; older ones become part of the base. */
const UNDO_LIMIT = 5000;

const encoder = new TextEncoder();
const decoder = new TextDecoder();

/** Starts keeping a new work. */
export async function keepNew(files: Files, folder: string, work: Work): Promise<Kept> {
  return fold(files, folder, { history: begin(work), line: 0, pending: 0, slot: 'a' });
}

/**
 * Opens what is kept in a folder, or null when nothing readable is there.
 *
 * @param mend writes the whole again when the journal ends in a torn line. Only who holds the right to write may:
 *   for a reader a line that another tab is just writing looks torn as well.
 */
export async function openKept(files: Files, folder: string, mend = false): Promise<Kept | null> {
  const [a, b] = [await readSnapshot(files, `${folder}/a`), await readSnapshot(files, `${folder}/b`)];
  const newest = a !== null && (b === null || a.line >= b.line) ? a : b;
  if (newest === null) return null;

  let history = rebuild(newest.base, newest.done, newest.undone);
  let line = newest.line;
  const journal = await files.read(`${folder}/journal`);
  const { lines, torn } = readJournal(journal);
  let gap = false;
  for (const { number, entry } of lines) {
    if (number <= line) continue;
    // Lines after a snapshot that was lost. What is written next must not stand behind them: it would be lost too.
    gap = number !== line + 1;
    if (gap) break;
    history = step(history, entry);
    line = number;
  }
  const kept: Kept = { history, line, pending: lines.length, slot: newest === a ? 'b' : 'a' };
  if (!torn && !gap) return kept;
  const behind = { ...kept, behind: true };
  return mend ? fold(files, folder, kept).catch(() => behind) : behind;
}

/** Writes one entry down and returns what is kept then. */
export async function write(files: Files, folder: string, kept: Kept, entry: Entry): Promise<Kept> {
  const line = kept.line + 1;
  // The browser cleared its store meanwhile, or a writing failed: a journal alone would be no work, or one with a
  // gap. So the whole is written again.
  if (kept.behind || (await gone(files, folder)))
    return fold(files, folder, { ...kept, history: step(kept.history, entry), line });
  await files.append(`${folder}/journal`, encoder.encode(`${seal(`${line} ${JSON.stringify(entry)}`)}\n`));
  const next = { ...kept, history: step(kept.history, entry), line, pending: kept.pending + 1 };
  return next.pending >= JOURNAL_LIMIT ? fold(files, folder, next) : next;
}

/** What is known after an entry that could not be written. */
export function missed(kept: Kept, entry: Entry): Kept {
  return { ...kept, history: step(kept.history, entry), line: kept.line + 1, behind: true };
}

/** Writes what could not be written before. */
export function catchUp(files: Files, folder: string, kept: Kept): Promise<Kept> {
  return kept.behind ? fold(files, folder, kept) : Promise.resolve(kept);
}

async function gone(files: Files, folder: string): Promise<boolean> {
  return (await files.size(`${folder}/a`)) === null && (await files.size(`${folder}/b`)) === null;
}

/** Writes down what became known of a version. */
export async function learn(
  files: Files,
  folder: string,
  kept: Kept,
  hash: string,
  facts: Facts,
): Promise<Kept> {
  const history = withFacts(kept.history, hash, facts);
  return history === kept.history ? kept : fold(files, folder, { ...kept, history });
}

async function fold(files: Files, folder: string, kept: Kept): Promise<Kept> {
  const { done, undone } = kept.history;
  const old = Math.max(0, done.length - UNDO_LIMIT);
  const base = old === 0 ? kept.history.base : rebuild(kept.history.base, done.slice(0, old), []).present;
  const history = rebuild(base, done.slice(old), undone);
  const snapshot: Snapshot = {
    schema: 'halflight/kept@1',
    line: kept.line,
    base,
    done: [...history.done],
    undone: [...undone],
  };
  await files.write(`${folder}/${kept.slot}`, encoder.encode(seal(JSON.stringify(snapshot))));
  await files.write(`${folder}/journal`, new Uint8Array());
  return { history, line: kept.line, pending: 0, slot: kept.slot === 'a' ? 'b' : 'a' };
}

/** The text with its checksum before it. */
export function seal(text: string): string {
  return `${crc32(encoder.encode(text)).toString(16).padStart(8, '0')} ${text}`;
}

/** The text behind a checksum that fits, or null. */
export function unseal(sealed: string): string | null {
  const text = sealed.slice(9);
  return sealed[8] === ' ' && seal(text) === sealed ? text : null;
}

async function readSnapshot(files: Files, path: string): Promise<Snapshot | null> {
  const bytes = await files.read(path);
  const text = bytes && unseal(decoder.decode(bytes));
  return text ? asSnapshot(parse(text)) : null;
}

function readJournal(bytes: Uint8Array | null): { lines: { number: number; entry: Entry }[]; torn: boolean } {
  const lines: { number: number; entry: Entry }[] = [];
  const texts = bytes === null ? [] : decoder.decode(bytes).split('\n');
  const rest = texts.pop() ?? '';
  for (const sealed of texts) {
    const text = unseal(sealed);
    const space = text?.indexOf(' ') ?? -1;
    const entry = text === null ? null : asEntry(parse(text.slice(space + 1)));
    if (text === null || entry === null) return { lines, torn: true };
    lines.push({ number: Number(text.slice(0, space)), entry });
  }
  return { lines, torn: rest !== '' };
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

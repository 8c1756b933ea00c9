import { copyFile, mkdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { byFileName } from '@halflight/engine';
import { writableFolder } from '../inputs.ts';
import { EXIT, WrongUse, withTrouble } from '../trouble.ts';
import { dossierFile, type Entry, pageFile, type RunHead, smallFile } from './entry.ts';
import { finish } from './finish.ts';
import { JOURNAL, type Journal, readJournal } from './journal.ts';
import { type PageOptions, planeOf, tell } from './run.ts';

/** Puts the parts of a class together as if they had been read in one run; gives the exit code. */
export async function mergeClass(parts: readonly string[], options: PageOptions): Promise<number> {
  const plane = planeOf(options.plane);
  if (parts.some((part) => resolve(part) === resolve(options.out)))
    throw new WrongUse('--out is one of the parts. Name another folder.');
  const journals = await Promise.all(parts.map(readJournal));
  const head = commonHead(parts, journals);
  const entries = allEntries(journals);
  await writableFolder(options.out);
  const unread = entries.some(({ trouble }) => trouble !== undefined);
  const code = await withTrouble(async () => {
    await copyPictures(journals, options.out);
    tell(await finish(options.out, head, entries, { ...options, pdf: options.pdf === true, plane }), options);
  });
  return code === EXIT.done && unread ? EXIT.unread : code;
}

/** All parts must be finished, of the same class, and together the whole. */
function commonHead(parts: readonly string[], journals: readonly Journal[]): RunHead {
  const heads = journals.map(({ head }, k) => {
    if (head === null) throw new WrongUse(`“${parts[k]}” holds no part of a class: it has no journal.`);
    if (!head.complete)
      throw new WrongUse(`“${parts[k]}” is not finished: run its part again first, it goes on where it was.`);
    return head;
  });
  const [first] = heads;
  for (const [k, { settings, title }] of heads.entries())
    if (settings !== first.settings || title !== first.title)
      throw new WrongUse(
        `“${parts[k]}” was read with other settings or another title than “${parts[0]}”: read all parts alike.`,
      );
  const told = new Set(heads.map(({ part }) => part));
  const n = Number(/\/(\d+)$/.exec(first.part ?? '')?.[1] ?? 0);
  for (let k = 1; k <= n; k++)
    if (!told.has(`${k}/${n}`)) throw new WrongUse(`Part ${k} of ${n} is missing: name its folder too.`);
  return { ...first, part: null, complete: false };
}

/** Every work once, sorted by name. */
function allEntries(journals: readonly Journal[]): Entry[] {
  const byName = new Map<string, Entry>();
  for (const { entries } of journals)
    for (const entry of entries) {
      const other = byName.get(entry.name);
      if (other && other.sha256 !== entry.sha256)
        throw new WrongUse(`Two parts have a different “${entry.name}”. Give one of the files another name.`);
      byName.set(entry.name, entry);
    }
  return [...byName.values()].sort((a, b) => byFileName(a.name, b.name));
}

async function copyPictures(journals: readonly Journal[], out: string): Promise<void> {
  await mkdir(join(out, JOURNAL), { recursive: true });
  for (const { folder, entries } of journals)
    for (const { id, trouble, dossier } of entries) {
      if (trouble !== undefined) continue;
      for (const file of [pageFile(id), smallFile(id), ...(dossier ? [dossierFile(id)] : [])])
        await copyFile(join(folder, file), join(out, JOURNAL, file));
    }
}

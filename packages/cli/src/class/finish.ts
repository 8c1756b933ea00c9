import { mkdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { writeAtomically } from '@halflight/files/node';
import type { NamesShown } from '@halflight/pages';
import { openProgress } from '../terminal/progress.ts';
import type { Entry, RunHead } from './entry.ts';
import { JOURNAL, writeJournal } from './journal.ts';
import { pageFilesOf, removeStale, writePages } from './pages.ts';
import { type Series, seriesOf } from './series.ts';

export interface FinishWish {
  readonly names: NamesShown;
  readonly pdf: boolean;
  readonly plane: readonly string[];
}

/** What is written about a whole class, `halflight/class@1`. */
export type ClassSummary = ReturnType<typeof summaryOf>;

/**
 * Writes everything from what was read: the readings, what the works have in common, and the pages. A single run, a
 * run that was taken up again and a merge of parts end here with the same entries, and so with the same bytes.
 */
export async function finish(
  out: string,
  head: RunHead,
  entries: readonly Entry[],
  wish: FinishWish,
): Promise<ClassSummary> {
  const write = async (file: string, text: string): Promise<void> => {
    await writeAtomically(join(out, file), new TextEncoder().encode(text));
  };
  await mkdir(join(out, JOURNAL), { recursive: true });
  await writeReadings(out, entries);
  const series = seriesOf(entries, wish.plane);
  const before = await pagesBefore(out);
  const pages = pageFilesOf(series, wish);
  // Told before they are there: whatever happens meanwhile, the next run knows what to take away.
  await write(PAGES, `${JSON.stringify([...new Set([...before, ...pages])])}\n`);
  const progress = openProgress(series.works.length);
  await writePages(out, head, series, wish, progress.step);
  progress.end();
  await removeStale(out, before, pages);
  await write(PAGES, `${JSON.stringify(pages)}\n`);
  const summary = summaryOf(head, series, pages);
  await write('series.intent.json', `${JSON.stringify(series.consistency.intent, null, 2)}\n`);
  await write('class.json', `${JSON.stringify(summary, null, 2)}\n`);
  await writeJournal(out, { ...head, complete: true }, entries);
  return summary;
}

/** The lines of `check`, sorted by name. */
export async function writeReadings(out: string, entries: readonly Entry[]): Promise<void> {
  const text = entries.map(({ line }) => `${line}\n`).join('');
  await writeAtomically(join(out, 'readings.jsonl'), new TextEncoder().encode(text));
}

const PAGES = `${JOURNAL}/pages.json`;
/** Only what a run can have written is ever removed. */
const OURS = /^(?:overview|(?:pages|dossiers|series)\/[^/\\]+)\.(?:html|pdf|halflight|recipe\.json)$/;

async function pagesBefore(out: string): Promise<string[]> {
  try {
    const files: unknown = JSON.parse(await readFile(join(out, PAGES), 'utf8'));
    return Array.isArray(files) ? files.filter((file) => typeof file === 'string' && OURS.test(file)) : [];
  } catch {
    return [];
  }
}

function summaryOf({ title, assignment }: RunHead, series: Series, pages: readonly string[]) {
  const { works, unread, statistics, common, plane, consistency, edits } = series;
  const name = (k: number): string => works[k].entry.name;
  const [across, up] = plane.axes;
  return {
    schema: 'halflight/class@1',
    title,
    ...(assignment && { assignment }),
    works: works.map(({ entry }) => ({ name: entry.name, strong: entry.strong, notes: entry.notes })),
    unread: unread.map((entry) => ({ name: entry.name, error: entry.trouble! })),
    statistics: Object.fromEntries(
      Object.entries(statistics).map(([key, { apart, ...rest }]) => [
        key,
        { ...rest, apart: apart.map(name) },
      ]),
    ),
    common: common.map(({ works: which, ...rest }) => ({ ...rest, works: which.map(name) })),
    plane: { across: across.name, up: up.name, alone: plane.alone.map(name) },
    series: {
      told: consistency.told,
      off: consistency.off.map(({ work, aspect, text }) => ({ name: name(work), aspect, text })),
      edits: [...edits].map(([work, recipe]) => ({ name: name(work), recipe })),
    },
    pages,
  };
}

import { type BaselineWork, checkBaseline, makeBaseline, OPEN_INTENT, WORKS_NEEDED } from '@halflight/engine';
import { proxy } from 'comlink';
import { create } from 'zustand';
import { Stopped } from '../picture/client.ts';
import type { Progress } from '../picture/desk.ts';
import type { ClassMeasure } from '../workers/class/desk.ts';
import { changeBaseline, useBaseline } from './baseline.ts';
import { startClassClient } from './class-client.ts';
import { savePlace } from './save.ts';
import { clearTroubles, say, trouble } from './session.ts';

/** The reading of finished works while it runs, and what came of it. */
interface WorksState {
  readonly reading: {
    readonly name: string;
    readonly done: number;
    readonly all: number;
    readonly progress: Progress;
  } | null;
  /** What could not be read, a sentence each. */
  readonly unread: readonly string[];
  /** What the numbers are called, in the order of the readings. */
  readonly measures: readonly ClassMeasure[];
}

export const useBaselineWorks = create<WorksState>(() => ({ reading: null, unread: [], measures: [] }));

/** Its own worker, which is there only while works are read: a class may be read at the same time. */
const client = startClassClient();

/** Fetches what the numbers are called. */
export async function nameMeasures(): Promise<void> {
  useBaselineWorks.setState({ measures: await client.measures() });
}

/** Files that no person means when they choose a folder. */
const BESIDE = /^(?:\.|thumbs\.db$|desktop\.ini$)/i;

/** Reads finished works one after the other and takes what they say together for the baseline. */
export async function readFinished(files: readonly File[]): Promise<void> {
  const coming = files.filter(({ name }) => !BESIDE.test(name));
  if (coming.length === 0 || useBaselineWorks.getState().reading) return;
  clearTroubles(['opening', 'reading']);
  const works: BaselineWork[] = [];
  const unread: string[] = [];
  useBaselineWorks.setState({ unread });
  try {
    for (const [done, file] of coming.entries()) {
      const on = { name: file.name, done, all: coming.length };
      const tell = (progress: Progress): void => {
        if (useBaselineWorks.getState().reading) useBaselineWorks.setState({ reading: { ...on, progress } });
      };
      useBaselineWorks.setState({ reading: { ...on, progress: { doing: 'Reading the file', share: null } } });
      try {
        const work = { id: String(done), file, name: file.name };
        const { read } = await client.run((desk) => desk.read(work, OPEN_INTENT, proxy(tell)));
        works.push(workOf(read.values));
      } catch (error) {
        if (error instanceof Stopped) throw error;
        const { message } = error as Error;
        unread.push(message.includes(file.name) ? message : `“${file.name}”: ${message}`);
      }
    }
    take(works, unread);
  } catch (error) {
    if (!(error instanceof Stopped)) trouble('reading', (error as Error).message);
  } finally {
    useBaselineWorks.setState({ reading: null, unread });
  }
}

/** Stops the reading; the baseline that was there stays. */
export function stopFinished(): void {
  client.stop();
}

function take(works: readonly BaselineWork[], unread: readonly string[]): void {
  const baseline = makeBaseline(works);
  if (baseline === null) {
    trouble(
      'reading',
      `${works.length === 1 ? 'One work' : `${works.length} works`} could be read; from ${WORKS_NEEDED} on they say what is usual for you. Nothing was changed.`,
    );
    return;
  }
  const kept = changeBaseline({ baseline, used: true });
  say(
    `${baseline.works} finished works are read${unread.length > 0 ? `, ${unread.length} could not be` : ''}.`,
  );
  if (!kept) trouble('keeping', 'The browser does not keep this for the next time: save it as a file.');
}

/** The numbers of one work, reading by reading; readings that could not tell are not among them. */
function workOf(values: Readonly<Record<string, number | null>>): BaselineWork {
  return Object.entries(values).map(([name, value]) => {
    const [id, key] = name.split('.') as [BaselineWork[number]['id'], string];
    return { id, evidence: { level: 'fair' }, measures: [{ key, label: '', unit: '', digits: 0, value }] };
  });
}

/** Saves the ranges as the file that the command line reads and writes too. */
export async function saveBaseline(): Promise<void> {
  const { baseline } = useBaseline.getState();
  const name = 'What is usual for me.json';
  const target = baseline && (await savePlace(name));
  if (!target) return;
  try {
    const blob = new Blob([`${JSON.stringify(baseline, null, 2)}\n`], { type: 'application/json' });
    await target.take({ blob, name });
    say(`“${name}” was ${target.words}.`);
  } catch {
    trouble('reading', `“${name}” could not be saved. Nothing is lost; try another place.`);
  }
}

/** Takes the ranges out of a file. */
export async function takeBaseline(file: File): Promise<void> {
  clearTroubles(['opening', 'reading']);
  let value: unknown;
  try {
    value = JSON.parse(await file.text());
  } catch {
    return trouble(
      'opening',
      `“${file.name}” is no file of usual ranges: it is no JSON. Choose one that was saved here.`,
    );
  }
  const checked = checkBaseline(value);
  if (!checked.ok)
    return trouble('opening', `“${file.name}” does not fit as usual ranges: ${checked.trouble}`);
  changeBaseline({ baseline: checked.value, used: true });
  say(`The ranges of ${checked.value.works} works are taken.`);
}

import { proxy } from 'comlink';
import { Stopped } from '../picture/client.ts';
import type { Progress } from '../picture/desk.ts';
import type { ClassWork } from './class-document.ts';
import { fileOf, keepPicture } from './class-files.ts';
import { isRead, type KeptReading } from './class-reading.ts';
import { classStore, classWorker, presentClass, useClass } from './class-store.ts';
import { keepingSentence } from './keeping.ts';
import { say, trouble } from './session.ts';

const get = useClass.getState;
const set = useClass.setState;

/** Works that are not read, or were read against another intent. */
function waiting(): ClassWork[] {
  const { readings } = get();
  const { works, intent } = presentClass();
  const key = JSON.stringify(intent);
  return works.filter(({ id }) => {
    const reading = readings[id];
    return reading === undefined || (isRead(reading) && reading.intent !== key);
  });
}

let running = false;

/** Reads what waits, one after the other, until all is read or it is paused. */
export async function readOn(): Promise<void> {
  if (running || !get().writable) return;
  running = true;
  const began = performance.now();
  let read = 0;
  let bytes = 0;
  try {
    for (;;) {
      const [work, ...rest] = waiting();
      if (!work || get().paused) break;
      const all = presentClass().works.length;
      const each = bytes > 0 ? (performance.now() - began) / 1000 / bytes : null;
      const left = each && each * [work, ...rest].reduce((sum, it) => sum + it.bytes, 0);
      const on = { name: work.file, done: all - rest.length - 1, all, left };
      set({ reading: { ...on, progress: { doing: 'Reading the file', share: null } } });
      await readOne(work, (progress) => {
        if (get().reading) set({ reading: { ...on, progress } });
      });
      read++;
      bytes += work.bytes;
    }
  } catch (error) {
    if (!(error instanceof Stopped)) trouble('reading', (error as Error).message);
    set({ paused: true });
  } finally {
    running = false;
    set({ reading: null });
  }
  if (read > 0 && waiting().length === 0) say('Every work of the class is read.');
}

async function readOne(work: ClassWork, tell: (progress: Progress) => void): Promise<void> {
  const { intent } = presentClass();
  const keep = await classStore();
  let reading: KeptReading;
  try {
    const file = await fileOf(work);
    const { read, small, page } = await classWorker.run((desk) => desk.read(file, intent, proxy(tell)));
    reading = { ...read, intent: JSON.stringify(intent) };
    await keepPicture('small', work.id, small);
    await keepPicture('page', work.id, page);
  } catch (error) {
    if (error instanceof Stopped) throw error;
    const { message } = error as Error;
    reading = { trouble: message.includes(work.file) ? message : `“${work.file}”: ${message}` };
  }
  await keep.keepReading(work.id, reading).catch((error) => trouble('keeping', keepingSentence(error)));
  set({ readings: { ...get().readings, [work.id]: reading } });
}

/** Finishes the work that is being read, then waits. */
export function pauseReading(): void {
  set({ paused: true });
  say('Reading pauses after this work.');
}

export function goOnReading(): void {
  set({ paused: false });
  void readOn();
}

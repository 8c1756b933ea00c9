import { OPEN_INTENT } from '@halflight/engine';
import { type ClassCommand, type Critique, classHistory, EMPTY_CLASS } from './class-document.ts';
import { forgetClassFiles } from './class-files.ts';
import { readOn } from './class-run.ts';
import { classStore, classWorker, useClass } from './class-store.ts';
import { keepingSentence } from './keeping.ts';
import { say, trouble } from './session.ts';

const get = useClass.getState;
const set = useClass.setState;

let opening: Promise<void> | null = null;

/** Brings the kept class onto the page, and goes on reading where it was left. */
export function openClass(): Promise<void> {
  opening ??= (async () => {
    void classWorker.measures().then((measures) => set({ measures }));
    const { kept, readings, writable } = await (await classStore()).open();
    const history = kept
      ? classHistory.rebuild(kept.base, kept.done, kept.undone)
      : classHistory.begin(EMPTY_CLASS);
    set({ history, readings, writable });
  })();
  return opening.then(readOn);
}

/** Does something to the class and keeps it. */
export function performOnClass(command: ClassCommand): void {
  enter({ kind: 'do', command });
  if (command.kind === 'decide' || command.kind === 'add') void readOn();
}

/** Says something about a work. */
export function sayOf(id: string, critique: Critique, words: string): void {
  performOnClass({ kind: 'say', words, id, critique });
}

export function undoClass(): void {
  const words = get().history?.done.at(-1)?.words;
  if (words && enter({ kind: 'undo' })) say(`Undone: ${words}.`);
  void readOn();
}

export function redoClass(): void {
  const words = get().history?.undone.at(-1)?.words;
  if (words && enter({ kind: 'redo' })) say(`Done again: ${words}.`);
  void readOn();
}

function enter(entry: Parameters<typeof classHistory.step>[1]): boolean {
  const { history, writable } = get();
  if (history === null || !writable) return false;
  const next = classHistory.step(history, entry);
  if (next === history) return false;
  set({ history: next });
  void classStore()
    .then(({ write }) => write({ base: next.base, done: next.done, undone: next.undone }))
    .catch((error) => trouble('keeping', keepingSentence(error)));
  return true;
}

/** Puts the class away for good: files, readings and what was said. */
export async function clearClass(): Promise<void> {
  classWorker.stop();
  await (await classStore()).clear();
  forgetClassFiles();
  set({ history: classHistory.begin({ ...EMPTY_CLASS, intent: OPEN_INTENT }), readings: {}, paused: false });
  say('The class is put away.');
}

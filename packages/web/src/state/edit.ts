import { type Command, commandWords } from '../document/commands.ts';
import { type Entry, type History, step } from '../document/history.ts';
import { currentVersion } from '../document/work.ts';
import { keeper } from './desks.ts';
import { keepingSentence } from './keeping.ts';
import { openWork } from './open.ts';
import { refreshReadings } from './readings.ts';
import { get, say, set, trouble } from './session.ts';

/** Does something to the open work, keeps it, and reads the picture again. */
export function perform(command: Command): void {
  enter({ kind: 'do', command });
}

export function undo(): void {
  const words = undoWords(get().history);
  if (words && travel('undo')) say(`Undone: ${words}.`);
}

export function redo(): void {
  const words = redoWords(get().history);
  if (words && travel('redo')) say(`Done again: ${words}.`);
}

/** What undo would undo, or null. */
export function undoWords(history: History | null): string | null {
  const command = history?.done.at(-1);
  return command ? commandWords(command) : null;
}

export function redoWords(history: History | null): string | null {
  const command = history?.undone.at(-1);
  return command ? commandWords(command) : null;
}

/** Undoes or does again; when that changes the version, its picture is opened. */
function travel(kind: 'undo' | 'redo'): boolean {
  const shown = get().history?.present;
  if (!enter({ kind })) return false;
  const next = get().history?.present;
  if (shown && next && currentVersion(shown).hash !== currentVersion(next).hash) void openWork(next.id);
  return true;
}

function enter(entry: Entry): boolean {
  const { history, writable } = get();
  if (history === null || !writable) return false;
  const next = step(history, entry);
  if (next === history) return false;
  set({ history: next });
  keeper.write(entry).catch((error) => trouble('keeping', keepingSentence(error)));
  void refreshReadings();
  return true;
}

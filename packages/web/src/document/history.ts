import { apply, type Command } from './commands.ts';
import type { Work } from './work.ts';

/** A work with everything that was done to it since `base`, so that all of it can be undone. */
export interface History {
  readonly base: Work;
  readonly done: readonly Command[];
  /** What was undone, the next to redo last. */
  readonly undone: readonly Command[];
  /** `base` with `done` applied. */
  readonly present: Work;
}

/** One line of the journal. */
export type Entry =
  | { readonly kind: 'do'; readonly command: Command }
  | { readonly kind: 'undo' }
  | { readonly kind: 'redo' };

/** A history that starts with this work. */
export function begin(base: Work): History {
  return { base, done: [], undone: [], present: base };
}

/** The history rebuilt from what is kept of it. */
export function rebuild(base: Work, done: readonly Command[], undone: readonly Command[]): History {
  return { base, done, undone, present: done.reduce(apply, base) };
}

/** The history after one entry; the same object when the entry changes nothing. */
export function step(history: History, entry: Entry): History {
  const { base, done, undone } = history;
  if (entry.kind === 'do') {
    const present = apply(history.present, entry.command);
    if (present === history.present) return history;
    return { base, done: [...done, entry.command], undone: [], present };
  }
  if (entry.kind === 'undo') {
    if (done.length === 0) return history;
    return rebuild(base, done.slice(0, -1), [...undone, done[done.length - 1]]);
  }
  if (undone.length === 0) return history;
  const command = undone[undone.length - 1];
  return {
    base,
    done: [...done, command],
    undone: undone.slice(0, -1),
    present: apply(history.present, command),
  };
}

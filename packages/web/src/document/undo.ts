/** A document with everything that was done to it since `base`, so that all of it can be undone. */
export interface Undoable<D, C> {
  readonly base: D;
  readonly done: readonly C[];
  /** What was undone, the next to redo last. */
  readonly undone: readonly C[];
  /** `base` with `done` applied. */
  readonly present: D;
}

/** One line of a journal. */
export type UndoEntry<C> =
  | { readonly kind: 'do'; readonly command: C }
  | { readonly kind: 'undo' }
  | { readonly kind: 'redo' };

/** Histories of one kind of document; `apply` gives the same object when a command changes nothing. */
export function undoable<D, C>(apply: (document: D, command: C) => D) {
  /** A history that starts with this document. */
  const begin = (base: D): Undoable<D, C> => ({ base, done: [], undone: [], present: base });

  /** The history rebuilt from what is kept of it. */
  const rebuild = (base: D, done: readonly C[], undone: readonly C[]): Undoable<D, C> => ({
    base,
    done,
    undone,
    present: done.reduce(apply, base),
  });

  /** The history after one entry; the same object when the entry changes nothing. */
  const step = (history: Undoable<D, C>, entry: UndoEntry<C>): Undoable<D, C> => {
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
  };
  return { begin, rebuild, step };
}

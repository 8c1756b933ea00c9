import { apply, type Command } from './commands.ts';
import { type Undoable, type UndoEntry, undoable } from './undo.ts';
import type { Work } from './work.ts';

/** A work with everything that was done to it since `base`, so that all of it can be undone. */
export type History = Undoable<Work, Command>;

/** One line of the journal. */
export type Entry = UndoEntry<Command>;

export const { begin, rebuild, step } = undoable<Work, Command>(apply);

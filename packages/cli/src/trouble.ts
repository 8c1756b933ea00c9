/** Exit codes of every command. */
export const EXIT = { done: 0, unread: 1, wrongUse: 2 } as const;

/** The command was called in a way that can't be carried out; the message says what to change. */
export class WrongUse extends Error {
  override readonly name = 'WrongUse';
}

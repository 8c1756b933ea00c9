import { resolve } from 'node:path';
import { FileTrouble } from '@halflight/files';

/** Exit codes of every command. */
export const EXIT = { done: 0, unread: 1, wrongUse: 2 } as const;

/** The command was called in a way that can't be carried out; the message says what to change. */
export class WrongUse extends Error {
  override readonly name = 'WrongUse';
}

/** Carries something out with files and says in words what is wrong with them; gives the exit code. */
export async function withTrouble(act: () => Promise<void>): Promise<number> {
  try {
    await act();
    return EXIT.done;
  } catch (error) {
    if (!(error instanceof FileTrouble)) throw error;
    process.stderr.write(`${error.sentence} ${error.todo}\n`);
    return EXIT.unread;
  }
}

/** Refuses to write over the picture that is read. Throws FileTrouble. */
export function keepOriginal(target: string, path: string): void {
  if (resolve(target) !== resolve(path)) return;
  throw new FileTrouble(
    'option',
    `“${target}” is the picture itself.`,
    'Name another file to write: originals are never overwritten.',
  );
}

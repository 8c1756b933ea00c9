import { basename } from 'node:path';
import { FileTrouble } from '@halflight/files';
import { EXIT } from '../trouble.ts';
import { type Hands, type Looked, look, type Task, type Wish } from './look.ts';

/** What became of one picture: seen, or a sentence why not and what to do. Plain data. */
export type Outcome =
  | { readonly name: string; readonly looked: Looked }
  | { readonly name: string; readonly trouble: { readonly sentence: string; readonly todo: string } };

/** Looks at a picture; whatever goes wrong with it becomes words, so that the others are still done. */
export async function outcomeOf(task: Task, wish: Wish, hands: Hands): Promise<Outcome> {
  const name = basename(task.path);
  try {
    return { name, looked: await look(task, wish, hands) };
  } catch (error) {
    return { name, trouble: troubleOf(error, name) };
  }
}

/** Tells on the error stream what went wrong with a picture; gives the exit code. */
export function tellTrouble(error: unknown, name: string): number {
  const { sentence, todo } = troubleOf(error, name);
  process.stderr.write(`${sentence} ${todo}\n`);
  return EXIT.unread;
}

/** Words for anything that was thrown while a picture was looked at. */
export function troubleOf(error: unknown, name: string): { sentence: string; todo: string } {
  if (error instanceof FileTrouble) return { sentence: error.sentence, todo: error.todo };
  const message = error instanceof Error ? error.message : String(error);
  return {
    sentence: `“${name}” could not be looked at: ${message.replace(/\.?$/, '.')}`,
    todo: 'Try it again alone; if it stays so, please tell the makers of Halflight.',
  };
}

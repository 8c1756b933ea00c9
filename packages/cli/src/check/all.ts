import { stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { openCodec } from '@halflight/files/node';
import { openHelper } from './helper.ts';
import type { Task, Wish } from './look.ts';
import { type Outcome, outcomeOf, troubleOf } from './outcome.ts';
import { openPool } from './pool.ts';

/**
 * Looks at pictures and gives the outcomes in the order of the tasks, each as soon as those before it are there.
 * A single picture is shared between two threads; several are looked at side by side, one on each core.
 *
 * @param onDone called whenever a picture is done, in whatever order
 */
export async function* outcomes(
  tasks: readonly Task[],
  wish: Wish,
  onDone: (name: string) => void = () => {},
): AsyncGenerator<Outcome> {
  if (tasks.length === 1) yield* single(tasks[0], wish);
  else yield* several(tasks, wish, onDone);
}

async function* single(task: Task, wish: Wish): AsyncGenerator<Outcome> {
  // A missing file is told by the reading itself.
  const { size } = await stat(task.path).catch(() => ({ size: 0 }));
  const helper = openHelper(size);
  const codec = await openCodec();
  try {
    yield await outcomeOf(task, wish, { codec, ...helper });
  } finally {
    codec.close();
    await helper.close();
  }
}

async function* several(
  tasks: readonly Task[],
  wish: Wish,
  onDone: (name: string) => void,
): AsyncGenerator<Outcome> {
  const pool = openPool(new URL('./worker.js', import.meta.url), tasks.length);
  try {
    const running = tasks.map(async (task): Promise<Outcome> => {
      const name = basename(task.path);
      // A worker that dies (out of memory) takes only its own picture with it.
      const outcome = await pool
        .run({ task, wish })
        .catch((error) => ({ name, trouble: troubleOf(error, name) }));
      onDone(name);
      return outcome;
    });
    for (const outcome of running) yield await outcome;
  } finally {
    await pool.destroy();
  }
}

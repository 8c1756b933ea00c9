import { openCodec } from '@halflight/files/node';
import type { Task, Wish } from './look.ts';
import { measure } from './measure.ts';
import { type Outcome, outcomeOf } from './outcome.ts';
import { takeReadings } from './readings.ts';

const codec = openCodec();

/** One picture after the other, each whole on this thread. */
export default async function work({ task, wish }: { task: Task; wish: Wish }): Promise<Outcome> {
  return outcomeOf(task, wish, { codec: await codec, measure, read: takeReadings });
}

import { openCodec } from '@halflight/files/node';
import type { Entry } from './entry.ts';
import { type ClassTask, readEntry } from './read.ts';

const codec = openCodec();

// The run alone decides when to stop, and tells it; a run that was killed takes its readers with it.
process.on('SIGINT', () => {});
process.once('disconnect', () => process.exit());

/** One work after the other, each whole in this process. */
export default async function work(task: ClassTask): Promise<Entry> {
  return readEntry(task, await codec);
}

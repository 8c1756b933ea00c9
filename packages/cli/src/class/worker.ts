import { openCodec } from '@halflight/files/node';
import type { Entry } from './entry.ts';
import { type ClassTask, readEntry } from './read.ts';

const codec = openCodec();

/** One work after the other, each whole on this thread. */
export default async function work(task: ClassTask): Promise<Entry> {
  return readEntry(task, await codec);
}

import { checkLine } from '@halflight/engine';
import { type Facts, withFacts } from '../document/facts.ts';
import { currentVersion, type Work } from '../document/work.ts';
import type { Seen } from '../picture/desk.ts';
import { keeper } from './desks.ts';
import { get, set } from './session.ts';

/** Keeps the readings and the small picture of the open version with it, unless it has them. */
export async function learnReadings(work: Work, seen: Seen): Promise<void> {
  const { picture, writable } = get();
  const { hash, readings, small } = currentVersion(work);
  if (picture === null || !writable || (readings !== undefined && small !== undefined)) return;
  try {
    const line =
      readings ?? (await keeper.keep(lineOf(checkLine({ ...seen, picture: picture.facts }, null))));
    const thumb = small ?? (await keeper.keep(picture.thumb));
    await learn(work.id, hash, { readings: line, small: thumb });
  } catch {
    // A full store has been told where it matters: without these the work is whole, and they are made again.
  }
}

/** Adds to what is known of a version of the open work. */
export async function learn(work: string, hash: string, facts: Facts): Promise<void> {
  const { history } = get();
  if (history?.present.id !== work) return;
  set({ history: withFacts(history, hash, facts) });
  await keeper.learn(hash, facts);
}

/** A line of `halflight/check@1` as it is kept. */
export function lineOf(line: string): Blob {
  return new Blob([line], { type: 'application/json' });
}

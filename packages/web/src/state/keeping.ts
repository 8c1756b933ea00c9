import type { KeepingState } from '../storage/keeper.ts';
import { keeper } from './desks.ts';
import { set, trouble } from './session.ts';

/** From this share on the store is said to fill up: our default, early enough to act. */
const FILLING = 0.8;

/** Whether the store fills up. */
export function isFilling({ lasting, tight, used, allowed }: KeepingState): boolean {
  if (!lasting) return false;
  return tight || (used !== null && allowed !== null && used >= FILLING * allowed);
}

/** What can be done when it does. */
export const FILLING_SENTENCE =
  'Save the dossiers of resting works, then take those works off the shelf: that makes room.';

/** Something large was kept: warns beside the open work before the store is full, not only on the shelf. */
export async function lookAtRoom(): Promise<void> {
  const keeping = await keeper.state();
  set({ keeping });
  if (isFilling(keeping)) trouble('keeping', `The browser’s store is filling up. ${FILLING_SENTENCE}`);
}

/** Asks the browser to promise that it keeps what is here; it may ask the artist, or decide by itself. */
export async function askToKeep(): Promise<void> {
  await navigator.storage?.persist?.().catch(() => false);
  await lookAtRoom();
}

/** What to tell when something could not be kept. */
export function keepingSentence(error: unknown): string {
  const full = error instanceof Error && error.name === 'QuotaExceededError';
  return full
    ? 'The browser’s store is full, so this is not kept: take works off the shelf that you no longer need, then open the picture again.'
    : 'The browser refused to keep this. What you see goes on working, but it ends with this page.';
}

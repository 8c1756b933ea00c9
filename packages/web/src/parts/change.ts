import { type Change, changeSentence } from '@halflight/engine';

/** What a version changed, in one sentence, to stand after a colon. */
export function changeWords(change: Pick<Change, 'impact' | 'changedShare' | 'effort'>): string {
  const sentence = changeSentence(change);
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}

import { percent } from '../findings/wording.ts';
import type { Change } from './change.ts';

/** What a version changed, in one sentence. */
export function changeSentence({
  impact,
  changedShare,
  effort,
}: Pick<Change, 'impact' | 'changedShare' | 'effort'>): string {
  if (impact === 0 && effort === 0) return 'Nothing changed.';
  const far =
    changedShare < 0.005
      ? 'From a distance nothing changed'
      : `From a distance ${percent(changedShare)} of the picture changed, by ${impact.toFixed(1)} on the whole`;
  return `${far}; up close ${percent(effort)} of the fine detail is new.`;
}

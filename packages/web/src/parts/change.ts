import type { VersionChange } from '@halflight/files';

/** What a version changed, in one sentence, to stand after a colon. */
export function changeSentence({
  impact,
  changedShare,
  effort,
}: Pick<VersionChange, 'impact' | 'changedShare' | 'effort'>): string {
  if (impact === 0 && effort === 0) return 'nothing changed.';
  const far =
    changedShare < 0.005
      ? 'from a distance nothing changed'
      : `from a distance ${percent(changedShare)} of the picture changed`;
  return `${far}; up close ${percent(effort)} of the fine detail is new.`;
}

/** A share in words of percent; small ones are not nothing. */
export function percent(share: number): string {
  return share > 0 && share < 0.01 ? 'under 1 %' : `${Math.round(100 * share)} %`;
}

/**
 * The artist's answer to a finding.
 *
 * `willDo`: the next version is asked about it. `meantSo`: accepted with a reason, and not raised again until the
 * number moves further off by more than a tenth. `wrong`: the reading is mistaken; with an outline only there
 * (that area is left out of the reading), without one for the whole finding.
 */
export interface Answer {
  /** Key of the finding, e.g. "hueSpread.many". */
  readonly key: string;
  readonly kind: 'willDo' | 'meantSo' | 'wrong';
  readonly reason?: string;
  /** Severity of the finding when it was answered. */
  readonly severity: number;
  /** Closed outline in shares of width and height, for an answer about one place. */
  readonly outline?: readonly number[];
}

/** How far the severity may rise before an accepted finding is raised again. */
const SLACK = 0.1;

/** True when an answer takes a finding off the list. */
export function settles(
  answer: Answer,
  finding: { readonly key: string; readonly severity: number },
): boolean {
  if (answer.key !== finding.key || answer.kind === 'willDo' || answer.outline) return false;
  return answer.kind === 'wrong' || finding.severity <= answer.severity + SLACK;
}

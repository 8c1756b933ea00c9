import { CHECK_SCHEMA, checkLine } from '@halflight/engine';
import type { Outcome } from './outcome.ts';

/** One line of `check --json`. */
export function lineOf(outcome: Outcome): string {
  if ('looked' in outcome) return checkLine(outcome.looked, outcome.looked.space);
  const { name, trouble } = outcome;
  return JSON.stringify({
    schema: CHECK_SCHEMA,
    picture: { name },
    error: `${trouble.sentence} ${trouble.todo}`,
  });
}

import type { Intent } from '@halflight/engine';
import type { IntentPart } from '../document/commands.ts';
import { perform } from './edit.ts';
import { get } from './session.ts';

/** Whose intent is decided: the open work's, or an assignment's while its screen is open. */
export interface Decider {
  intent(): Intent | undefined;
  decide(part: IntentPart, intent: Intent): void;
}

const OPEN_WORK: Decider = {
  intent: () => get().history?.present.intent,
  decide: (part, intent) => perform({ kind: 'decide', part, intent, at: new Date().toISOString() }),
};
let decider = OPEN_WORK;

/** Lets the parts of an intent decide something else than the open work; null gives that back. */
export function decideFor(other: Decider | null): void {
  decider = other ?? OPEN_WORK;
}

/** Decides a part of the intent, or leaves it open (undefined). */
export function decide<P extends IntentPart>(part: P, decision: Intent[P] | undefined): void {
  const intent = decider.intent();
  if (!intent) return;
  const { [part]: _old, ...rest } = intent;
  const next = (decision === undefined ? rest : { ...rest, [part]: decision }) as Intent;
  if (JSON.stringify(next[part]) === JSON.stringify(intent[part])) return;
  decider.decide(part, next);
}

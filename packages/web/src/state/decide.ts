import type { Intent } from '@halflight/engine';
import type { IntentPart } from '../document/commands.ts';
import { perform } from './edit.ts';
import { get } from './session.ts';

/** Decides a part of the open work's intent, or leaves it open (undefined). */
export function decide<P extends IntentPart>(part: P, decision: Intent[P] | undefined): void {
  const intent = get().history?.present.intent;
  if (!intent) return;
  const { [part]: _old, ...rest } = intent;
  const next = (decision === undefined ? rest : { ...rest, [part]: decision }) as Intent;
  if (JSON.stringify(next[part]) === JSON.stringify(intent[part])) return;
  perform({ kind: 'decide', part, intent: next, at: new Date().toISOString() });
}

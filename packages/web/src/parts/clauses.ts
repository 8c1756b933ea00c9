import { countWord, listOf, sentence } from '@halflight/engine';
import type { WorkScreen } from '../app/route.ts';
import { currentVersion, isLayered, type Work } from '../document/work.ts';
import type { Seen } from '../picture/desk.ts';
import { when } from './when.ts';

/** One clause of the sentence at the end of the margin, and the screen it opens. */
export interface WayClause {
  readonly text: string;
  readonly screen: WorkScreen | 'shelf';
}

/** Where a work stands, in clauses: its intent, its notes, its edit, the shelf. */
export function clausesOf(work: Work, seen: Seen | null, onShelf: number): WayClause[] {
  const clauses: WayClause[] = [{ text: sentence(intentClause(work)), screen: 'intent' }];
  if (seen) clauses.push({ text: notesClause(seen.findings.length), screen: 'check' });
  clauses.push({ text: editClause(work), screen: 'rework' });
  clauses.push({ text: lookClause(work), screen: 'standback' });
  clauses.push({ text: versionsClause(work), screen: 'progress' });
  clauses.push({ text: isLayered(currentVersion(work)) ? 'in layers' : 'one layer', screen: 'thinout' });
  clauses.push({
    text: work.state === 'delivered' ? 'handed over' : 'not handed over yet',
    screen: 'handover',
  });
  clauses.push({
    text: onShelf <= 1 ? 'the shelf' : `${countWord(onShelf)} works on the shelf`,
    screen: 'shelf',
  });
  return clauses;
}

/** "the mood and the hue plan are decided". */
export function intentClause({ intent }: Pick<Work, 'intent'>): string {
  const parts = [
    intent.mood && 'the mood',
    intent.light && 'the light',
    intent.focus && 'the focus',
    intent.hue && 'the hue plan',
    intent.delivery && 'the delivery',
    intent.feel && 'what one should feel',
  ].filter((part) => typeof part === 'string');
  if (parts.length === 0) return 'nothing is decided yet';
  return `${listOf(parts)} ${parts.length === 1 ? 'is' : 'are'} decided`;
}

function notesClause(count: number): string {
  if (count === 0) return 'no note is open';
  return count === 1 ? 'one note is open' : `${countWord(count)} notes are open`;
}

function editClause({ recipe }: Work): string {
  const count = recipe?.steps.length ?? 0;
  if (count === 0) return 'no edit';
  return count === 1 ? 'an edit of one step' : `an edit of ${countWord(count)} steps`;
}

function versionsClause({ versions, decision }: Work): string {
  const count = versions.length === 1 ? 'one version' : `${countWord(versions.length)} versions`;
  return decision ? `${count}, decided ${when(decision.at)}` : `${count} so far`;
}

function lookClause({ looks }: Work): string {
  const last = looks.at(-1);
  return last ? `last look ${when(last.at)}` : 'no quiet look yet';
}

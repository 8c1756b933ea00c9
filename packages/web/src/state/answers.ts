import type { Finding, Place } from '@halflight/engine';
import { type Answer, currentVersion } from '../document/work.ts';
import { perform } from './edit.ts';
import { refreshReadings } from './readings.ts';
import { get, say } from './session.ts';

const SAID = {
  willDo: 'You will do this.',
  meantSo: 'Meant so: it is not raised again.',
  wrong: 'Left out.',
} as const;

/** Answers a finding; with places only there, one answer for each. */
export function answerFinding(
  finding: Finding,
  kind: Answer['kind'],
  { reason, places }: { reason?: string; places?: readonly Place[] } = {},
): void {
  const work = get().history?.present;
  if (!work) return;
  const answer: Answer = {
    key: finding.key,
    kind,
    severity: finding.severity,
    reading: finding.reading,
    sentence: finding.text,
    version: currentVersion(work).number,
    at: new Date().toISOString(),
    ...(reason && { reason }),
  };
  const outlines = places?.flatMap(({ outline }) => (outline ? [outline] : [])) ?? [];
  const answers = outlines.length === 0 ? [answer] : outlines.map((outline) => ({ ...answer, outline }));
  const at = noteIndex(finding.key);
  perform({ kind: 'answer', answers });
  say(SAID[kind]);
  if (kind !== 'willDo') void refreshReadings().then(() => requestAnimationFrame(() => focusNote(at)));
}

const NOTES = '.notes-part .note h3 button';

/** Where a note stands in the margin. */
function noteIndex(key: string): number {
  return [...document.querySelectorAll<HTMLElement>(NOTES)].findIndex(
    ({ dataset }) => dataset.anchor === key,
  );
}

/** An answered note leaves the margin: who answered by keyboard goes on at the one that took its place. */
function focusNote(index: number): void {
  if (document.activeElement !== document.body) return;
  const notes = document.querySelectorAll<HTMLElement>(NOTES);
  const next =
    notes[Math.min(index, notes.length - 1)] ?? document.querySelector<HTMLElement>('.group > summary');
  next?.focus();
}

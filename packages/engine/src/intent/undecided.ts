import type { Intent } from './intent.ts';

/** The parts of an intent that are still open, as phrases for one quiet line. */
export function undecided(intent: Intent): string[] {
  const open: string[] = [];
  if (!intent.mood) open.push('the mood');
  if (!intent.light) open.push('the light');
  if (!intent.focus) open.push('the focus');
  if (!intent.hue) open.push('the hue plan');
  return open;
}

import { countWord, sentence } from '@halflight/engine';
import type { ClassWork } from '../../state/class-document.ts';
import type { ReadingOn } from '../../state/class-store.ts';

/** "three works", "one work". */
export function worksWord(count: number): string {
  return count === 1 ? 'one work' : `${countWord(count)} works`;
}

/** What a work is called on the screen. */
export function calledOf({ who, title }: ClassWork): string {
  return title ? `${who}, “${title}”` : who;
}

/** "about two minutes" for a number of seconds. */
export function durationWords(seconds: number): string {
  if (seconds < 50) return `about ${seconds < 10 ? 'ten' : Math.round(seconds / 10) * 10} seconds`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 2) return 'about a minute';
  if (minutes < 90) return `about ${countWord(minutes)} minutes`;
  return `about ${countWord(Math.round(minutes / 60))} hours`;
}

/** "Reading ana.png, the fourth of twelve." */
export function readingWords({ name, done, all, left }: ReadingOn): string {
  const rest = left === null ? '' : `; ${durationWords(left)} left`;
  return `Reading ${name}, ${done + 1} of ${all}${rest}`;
}

/** How long a critique takes to say. */
export function spokenWords({ words, seconds }: { words: number; seconds: number }): string {
  if (words === 0) return 'Nothing is said yet.';
  const minutes = Math.floor(seconds / 60);
  const rest = seconds % 60;
  const time =
    minutes === 0
      ? `${rest} seconds`
      : `${countWord(minutes)} ${minutes === 1 ? 'minute' : 'minutes'}${rest >= 5 ? ` and ${rest} seconds` : ''}`;
  return `${sentence(words === 1 ? 'one word' : `${countWord(words)} words`)}: ${time} when spoken.`;
}

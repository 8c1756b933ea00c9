import type { NamesShown } from '../types/overview.ts';

/** A name as it is shown: itself, its initials ("A. B."), or only the place in the class. */
export function shownName(name: string, place: number, how: NamesShown): string {
  if (how === 'shown') return name;
  if (how === 'hidden') return `Work ${place + 1}`;
  const letters = name
    .split(/[\s_-]+/)
    .map((word) => Array.from(word).find((letter) => /\p{L}/u.test(letter)))
    .filter((letter) => letter !== undefined);
  return letters.length > 0
    ? letters.map((letter) => `${letter.toUpperCase()}.`).join(' ')
    : `Work ${place + 1}`;
}

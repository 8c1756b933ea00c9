import type { Weight } from './items.ts';
import type { Typeface } from './typeface.ts';

/** Breaks a text into lines that fit a width: between words, and inside a word only where it is wider than a line. */
export function wrapText(
  typeface: Typeface,
  text: string,
  weight: Weight,
  size: number,
  width: number,
): string[] {
  const fits = (line: string): boolean => typeface.width(line, weight, size) <= width;
  const lines: string[] = [];
  for (const paragraph of text.split('\n')) {
    let line = '';
    for (const word of paragraph.split(/[ \t]+/).filter(Boolean)) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (fits(longer)) {
        line = longer;
        continue;
      }
      if (line !== '') lines.push(line);
      const pieces = broken(word, fits);
      lines.push(...pieces.slice(0, -1));
      line = pieces.at(-1)!;
    }
    if (line !== '') lines.push(line);
  }
  return lines;
}

/** A word in pieces that fit; most words are one. */
function broken(word: string, fits: (piece: string) => boolean): string[] {
  if (fits(word)) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const character of word) {
    if (piece !== '' && !fits(piece + character)) {
      pieces.push(piece);
      piece = '';
    }
    piece += character;
  }
  return [...pieces, piece];
}

import type { Typeface } from '../sheet/typeface.ts';
import { dataAddress } from './base64.ts';

const WEIGHTS = { regular: 400, strong: 600 } as const;

/** The pieces of the typeface that a text needs, as CSS; a browser takes what they lack from its own. */
export function faceCss(text: string, typeface: Typeface): string {
  const characters = [...new Set(text)].join('');
  return (['regular', 'strong'] as const)
    .flatMap((weight) => {
      const used = new Map<number, string>();
      for (const { piece, text } of typeface.runs(characters, weight))
        used.set(piece, (used.get(piece) ?? '') + text);
      return [...used].map(
        ([piece, letters]) =>
          `@font-face{font-family:"Halflight Text";font-weight:${WEIGHTS[weight]};src:url(${dataAddress(typeface.fonts[weight][piece], 'font/woff')}) format("woff")${piece === 0 ? '' : `;unicode-range:${rangeOf(letters)}`}}`,
      );
    })
    .join('\n');
}

const rangeOf = (letters: string): string =>
  Array.from(letters, (letter) => `U+${letter.codePointAt(0)!.toString(16)}`).join(',');

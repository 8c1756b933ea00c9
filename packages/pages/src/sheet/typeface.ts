import { create, type Font } from 'fontkit';
import type { PageFonts } from '../types/fonts.ts';
import type { Weight } from './items.ts';

/** Text that one file of the typeface can set. */
export interface Run {
  readonly text: string;
  /** Place of the file among those of its weight. */
  readonly piece: number;
  /** At size 1. */
  readonly width: number;
}

/** The bundled typeface: measures text, and gives its outlines. */
export interface Typeface {
  readonly fonts: PageFonts;
  /** Splits text by the files that have its characters; what none has goes to the first. */
  runs(text: string, weight: Weight): Run[];
  width(text: string, weight: Weight, size: number): number;
  /** Path of a text whose baseline begins at x, y. */
  outline(text: string, weight: Weight, size: number, x: number, y: number): string;
  /** Distance of the highest letters from the baseline, at size 1. */
  readonly ascent: number;
}

/** @throws Error when a file is no font */
export function openTypeface(fonts: PageFonts): Typeface {
  const pieces: Record<Weight, Font[]> = {
    regular: fonts.regular.map(openFont),
    strong: fonts.strong.map(openFont),
  };
  const known = new Map<string, Run[]>();
  const runs = (text: string, weight: Weight): Run[] => {
    const key = `${weight} ${text}`;
    const kept = known.get(key);
    if (kept) return kept;
    const made = split(text, pieces[weight]).map(({ text, piece }) => ({
      text,
      piece,
      width: advance(pieces[weight][piece], text),
    }));
    known.set(key, made);
    return made;
  };
  return {
    fonts,
    runs,
    ascent: pieces.regular[0].ascent / pieces.regular[0].unitsPerEm,
    width: (text, weight, size) => size * runs(text, weight).reduce((sum, run) => sum + run.width, 0),
    outline(text, weight, size, x, y) {
      let at = x;
      let d = '';
      for (const run of runs(text, weight)) {
        d += outlineOf(pieces[weight][run.piece], run.text, size, at, y);
        at += size * run.width;
      }
      return d;
    },
  };
}

function openFont(bytes: Uint8Array): Font {
  // The library reads any bytes; its types ask for Node's own kind.
  const font = create(bytes as Parameters<typeof create>[0]);
  if (!('layout' in font)) throw new Error('The typeface is a collection of fonts.');
  return font;
}

/** Signs of our own sentences that the bundled typeface lacks, and what stands for them on paper. */
const STANDINGS: Readonly<Record<string, string>> = {
  '→': '›',
  '←': '‹',
  '‰': 'per mille',
  '′': "'",
  '≥': '>',
  '≤': '<',
};

function split(text: string, fonts: readonly Font[]): { text: string; piece: number }[] {
  const out: { text: string; piece: number }[] = [];
  const known = (sign: string): boolean =>
    fonts.some((font) => font.hasGlyphForCodePoint(sign.codePointAt(0)!));
  const set = Array.from(text, (sign) => (known(sign) ? sign : (STANDINGS[sign] ?? sign))).join('');
  for (const character of set) {
    const code = character.codePointAt(0)!;
    const last = out.at(-1);
    const has = (font: Font | undefined): boolean => font?.hasGlyphForCodePoint(code) ?? false;
    const piece = last && has(fonts[last.piece]) ? last.piece : Math.max(0, fonts.findIndex(has));
    if (last?.piece === piece) last.text += character;
    else out.push({ text: character, piece });
  }
  return out;
}

function advance(font: Font, text: string): number {
  return font.layout(text).advanceWidth / font.unitsPerEm;
}

function outlineOf(font: Font, text: string, size: number, x: number, y: number): string {
  const scale = size / font.unitsPerEm;
  const { glyphs, positions } = font.layout(text);
  let at = x;
  let d = '';
  glyphs.forEach((glyph, k) => {
    const { xAdvance, xOffset, yOffset } = positions[k];
    const path = glyph.path.scale(scale, -scale).translate(at + xOffset * scale, y - yOffset * scale);
    d += rounded(path.toSVG());
    at += xAdvance * scale;
  });
  return d;
}

/** Two digits after the point are enough for letters. */
const rounded = (d: string): string => d.replace(/-?\d+\.\d+/g, (n) => String(Number(Number(n).toFixed(2))));

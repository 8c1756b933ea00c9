import { GREY, SIZE, type TextSize } from '../page/greys.ts';
import type { Item, Part, Weight } from './items.ts';
import type { Paper } from './paper.ts';
import type { Typeface } from './typeface.ts';
import { wrapText } from './wrap.ts';

/** A piece of a page that is never torn apart. */
export interface Chunk {
  readonly height: number;
  /** Room above it, where it does not begin a page. */
  readonly gap: number;
  /** Stays on one page with the next. */
  readonly keep?: boolean;
  /** What it is made of, with its upper border at y. */
  at(y: number): Part[];
}

/** What all blocks are laid out with. */
export interface Setting {
  readonly paper: Paper;
  readonly typeface: Typeface;
  /** Left border and width of what is set. */
  readonly left: number;
  readonly width: number;
}

/** Distance of lines by size of type. */
export const LEADING: Readonly<Record<TextSize, number>> = { caption: 17, text: 22, note: 25, title: 31 };

/** Lines of text as they stand from y on. */
export interface Lines {
  readonly height: number;
  at(x: number, y: number): Item[];
}

/** Text in lines that fit a width. */
export function linesOf(
  { typeface }: Setting,
  text: string,
  as: TextSize,
  width: number,
  { weight = 'regular', fill = GREY.ink }: { weight?: Weight; fill?: string } = {},
): Lines {
  const size = SIZE[as];
  const leading = LEADING[as];
  const lines = wrapText(typeface, text, weight, size, width);
  return {
    height: lines.length * leading,
    at: (x, y) =>
      lines.map((line, k) => ({
        kind: 'text',
        text: line,
        x,
        // The baseline of a line whose letters stand in the middle of its leading.
        y: y + k * leading + leading / 2 + 0.33 * size,
        anchor: 'start',
        size,
        weight,
        fill,
      })),
  };
}

/** A line across the page. */
export function hairline({ left, width }: Setting, y: number): Part {
  return {
    tag: 'Artifact',
    items: [{ kind: 'rect', x: left, y, width, height: 0.75, fill: GREY.faint }],
  };
}

import { percent } from '@halflight/engine';
import { GREY, SIZE } from '../../page/greys.ts';
import type { Card } from '../../page/page.ts';
import type { PaletteColour } from '../../types/picture.ts';
import { type Chunk, linesOf, type Setting } from '../chunk.ts';
import type { Item, Part } from '../items.ts';

const BAR = 64;
const GAP = 20;

/** The palette: a bar in which each colour has its area, and below it what the colours are called. */
export function swatchChunks(setting: Setting, colours: readonly PaletteColour[]): Chunk[] {
  const { left, width, paper } = setting;
  const sum = colours.reduce((s, { share }) => s + share, 0) || 1;
  const bar: Chunk = {
    height: BAR,
    gap: 14,
    keep: true,
    at: (y) => {
      let x = left;
      const items = colours.map(({ hex, share }): Item => {
        const w = (width * share) / sum;
        const item = { kind: 'rect', x, y, width: w, height: BAR, fill: hex } as const;
        x += w;
        return item;
      });
      return [{ tag: 'Figure', alt: 'The colours of the picture, each as wide as its area.', items }];
    },
  };
  return [bar, ...rowsOf(colours, paper.cards).map((row) => legend(setting, row, paper.cards))];
}

function legend(setting: Setting, row: readonly PaletteColour[], across: number): Chunk {
  const cell = (setting.width - GAP * (across - 1)) / across;
  const cells = row.map((colour) => ({
    colour,
    name: linesOf(setting, colour.name, 'caption', cell - 44, { weight: 'strong' }),
    under: linesOf(setting, `${colour.hex}  ${percent(colour.share)}`, 'caption', cell - 44, {
      fill: GREY.quiet,
    }),
  }));
  return {
    height: Math.max(36, ...cells.map(({ name, under }) => name.height + under.height)),
    gap: 14,
    at: (y) =>
      cells.map(({ colour, name, under }, k): Part => {
        const x = setting.left + k * (cell + GAP);
        return {
          tag: 'P',
          items: [
            { kind: 'rect', x, y, width: 34, height: 34, fill: colour.hex },
            ...name.at(x + 44, y),
            ...under.at(x + 44, y + name.height),
          ],
        };
      }),
  };
}

/** Numbers with their names, in two columns that stay on one page. */
export function tableChunks(setting: Setting, rows: readonly (readonly [string, string])[]): Chunk[] {
  const across = setting.paper.wide ? 2 : 1;
  const cell = (setting.width - 2 * GAP * (across - 1)) / across;
  const half = Math.ceil(rows.length / across);
  const lines = Array.from({ length: half }, (_, k) =>
    Array.from({ length: across }, (_, c) => rows[c * half + k]).filter((row) => row !== undefined),
  );
  return lines.map((line, k): Chunk => {
    const cells = line.map(([label, value]) => {
      const told = setting.typeface.width(value, 'regular', SIZE.caption);
      const right = Math.min(told, cell / 2);
      return {
        label: linesOf(setting, label, 'caption', cell - right - 12, { fill: GREY.quiet }),
        value: linesOf(setting, value, 'caption', right + 0.5),
        right,
      };
    });
    return {
      height: 3 + Math.max(...cells.map(({ label, value }) => Math.max(label.height, value.height))),
      gap: k === 0 ? 10 : 0,
      keep: k + 1 < lines.length,
      at: (y) =>
        cells.map(({ label, value, right }, c): Part => {
          const x = setting.left + c * (cell + 2 * GAP);
          return { tag: 'P', items: [...label.at(x, y), ...value.at(x + cell - right, y)] };
        }),
    };
  });
}

/** Small pictures with a few words each. */
export function cardChunks(setting: Setting, cards: readonly Card[], across = setting.paper.cards): Chunk[] {
  const cell = (setting.width - GAP * (across - 1)) / across;
  const box = 0.75 * cell;
  return rowsOf(cards, across).map((row): Chunk => {
    const cells = row.map((card) => ({
      card,
      title: linesOf(setting, card.title, 'text', cell, { weight: 'strong' }),
      lines: card.lines.map((text) => linesOf(setting, text, 'caption', cell, { fill: GREY.quiet })),
    }));
    const words = cells.map(({ title, lines }) => lines.reduce((s, l) => s + l.height + 3, title.height));
    return {
      height: box + 24 + Math.max(...words),
      gap: 22,
      at: (y) => cells.flatMap(({ card, title, lines }, k) => cardParts(card, title, lines, k, y)),
    };
  });

  function cardParts(
    { picture, alt }: Card,
    title: ReturnType<typeof linesOf>,
    lines: readonly ReturnType<typeof linesOf>[],
    k: number,
    y: number,
  ): Part[] {
    const x = setting.left + k * (cell + GAP);
    const scale = Math.min((cell - 16) / picture.width, (box - 16) / picture.height);
    const [w, h] = [picture.width * scale, picture.height * scale];
    const parts: Part[] = [
      {
        tag: 'Artifact',
        items: [{ kind: 'rect', x, y, width: cell, height: box, fill: GREY.wall }],
      },
      {
        tag: 'Figure',
        alt,
        items: [
          {
            kind: 'picture',
            picture,
            x: x + (cell - w) / 2,
            y: y + (box - h) / 2,
            width: w,
            height: h,
          },
        ],
      },
      { tag: 'P', items: title.at(x, y + box + 8) },
    ];
    let at = y + box + 8 + title.height;
    for (const line of lines) {
      parts.push({ tag: 'P', items: line.at(x, at) });
      at += line.height + 3;
    }
    return parts;
  }
}

function rowsOf<T>(items: readonly T[], across: number): T[][] {
  const rows: T[][] = [];
  for (let k = 0; k < items.length; k += across) rows.push(items.slice(k, k + across));
  return rows;
}

import { GREY, SIZE } from '../page/greys.ts';
import type { Block, Page } from '../page/page.ts';
import { graphicChunks } from './blocks/graphics.ts';
import { noteChunks } from './blocks/notes.ts';
import { picturesChunk } from './blocks/pictures.ts';
import { cardChunks, swatchChunks, tableChunks } from './blocks/small.ts';
import { closingChunk, headingChunk, textChunk, titleChunk } from './blocks/text.ts';
import type { Chunk, Setting } from './chunk.ts';
import type { Part, Sheet, SheetPage } from './items.ts';
import type { Paper } from './paper.ts';
import type { Typeface } from './typeface.ts';

/** Tallest text that is kept with the next. */
const SHORT = 60;

/** How much smaller pictures may be where that saves a page. */
const SMALLER = [0.88, 0.76, 0.66];

/** Lays a page out on paper: the one layout from which PDF, SVG and PNG are drawn. */
export function layOut(page: Page, paper: Paper, typeface: Typeface): Sheet {
  const sheet = laidOut(page, paper, typeface);
  const walls = page.blocks.filter((block) => block.kind === 'pictures');
  if (sheet.pages.length < 2 || walls.length === 0) return sheet;
  // As tall as they are, which the width may hold below what is allowed.
  const setting = settingOn(paper, typeface);
  const tallest = Math.min(
    paper.tallest,
    Math.max(...walls.map(({ figures }) => picturesChunk(setting, figures).height)),
  );
  for (const part of SMALLER) {
    const fewer = laidOut(page, { ...paper, tallest: part * tallest }, typeface);
    if (fewer.pages.length < sheet.pages.length) return fewer;
  }
  return sheet;
}

function laidOut(page: Page, paper: Paper, typeface: Typeface): Sheet {
  const { width, ground } = paper;
  const setting = settingOn(paper, typeface);
  const chunks = [
    titleChunk(setting, page.title, page.under),
    ...page.blocks.flatMap((block, k) =>
      chunksOf(setting, block).map((chunk) => together(chunk, block, page.blocks[k + 1])),
    ),
    ...(page.closing.length > 0 ? [closingChunk(setting, page.closing)] : []),
  ];
  const { pages, height } =
    paper.height === null ? oneLong(chunks, paper) : manyPages(chunks, paper, page.title);
  return {
    title: page.title,
    ...(page.author !== undefined && { author: page.author }),
    language: 'en',
    width,
    height,
    ground,
    pages,
  };
}

function settingOn(paper: Paper, typeface: Typeface): Setting {
  const { width, margin } = paper;
  return { paper, typeface, left: margin, width: width - 2 * margin };
}

/** Short texts that follow each other are read as one. */
function together(chunk: Chunk, { kind }: Block, next: Block | undefined): Chunk {
  return kind === 'text' && next?.kind === 'text' && chunk.height < SHORT ? { ...chunk, keep: true } : chunk;
}

function chunksOf(setting: Setting, block: Block): Chunk[] {
  switch (block.kind) {
    case 'heading':
      return [headingChunk(setting, block.text)];
    case 'text':
      return [textChunk(setting, block.text, block.as)];
    case 'pictures':
      return [picturesChunk(setting, block.figures)];
    case 'notes':
      return noteChunks(setting, block.notes);
    case 'graphics':
      return graphicChunks(setting, block.figures, block.across);
    case 'swatches':
      return swatchChunks(setting, block.colours);
    case 'table':
      return tableChunks(setting, block.rows);
    case 'cards':
      return cardChunks(setting, block.cards, block.across);
  }
}

function oneLong(chunks: readonly Chunk[], { margin }: Paper): { pages: SheetPage[]; height: number } {
  let y = margin;
  const parts = chunks.flatMap((chunk, k): Part[] => {
    if (k > 0) y += chunk.gap;
    const made = chunk.at(y);
    y += chunk.height;
    return made;
  });
  return { pages: [{ parts }], height: Math.ceil(y + margin) };
}

function manyPages(
  chunks: readonly Chunk[],
  paper: Paper,
  title: string,
): { pages: SheetPage[]; height: number } {
  const { margin } = paper;
  const height = paper.height!;
  const pages: Part[][] = [[]];
  let y = margin;
  let fresh = true;
  chunks.forEach((chunk, k) => {
    const gap = fresh ? 0 : chunk.gap;
    if (!fresh && y + gap + needed(chunks, k, height - 2 * margin) > height - margin) {
      pages.push([]);
      y = margin;
      fresh = true;
    }
    if (!fresh) y += chunk.gap;
    pages.at(-1)!.push(...chunk.at(y));
    y += chunk.height;
    fresh = false;
  });
  const numbered = pages.map((parts, k) => ({
    parts: pages.length > 1 ? [...parts, pageNumber(paper, title, k + 1, pages.length)] : parts,
  }));
  return { pages: numbered, height };
}

/** Room for a piece and for what has to stay with it; where that is more than a page, only for it and the next. */
function needed(chunks: readonly Chunk[], k: number, page: number): number {
  let room = chunks[k].height;
  let pair = room;
  for (let i = k; chunks[i].keep && i + 1 < chunks.length; i++) {
    room += chunks[i + 1].gap + chunks[i + 1].height;
    if (i === k) pair = room;
  }
  return room <= page ? room : pair;
}

function pageNumber({ width, height, margin }: Paper, title: string, k: number, of: number): Part {
  const at = { y: height! - margin / 2, size: SIZE.caption, weight: 'regular', fill: GREY.quiet } as const;
  const shown = title.length > 60 ? `${title.slice(0, 59)}…` : title;
  return {
    tag: 'Artifact',
    items: [
      { kind: 'text', text: shown, x: margin, anchor: 'start', ...at },
      { kind: 'text', text: `${k} of ${of}`, x: width - margin, anchor: 'end', ...at },
    ],
  };
}

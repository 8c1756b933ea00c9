import { GREY } from '../../page/greys.ts';
import type { GraphicFigure } from '../../page/page.ts';
import { type Chunk, linesOf, type Setting } from '../chunk.ts';
import type { Part } from '../items.ts';

const GAP = 36;
/** Drawings are made for this size; a little larger still looks right. */
const LARGEST = 1.15;

/** Drawings in rows, each with its name above and its sentence below. */
export function graphicChunks(setting: Setting, figures: readonly GraphicFigure[], wanted: number): Chunk[] {
  const across = setting.paper.wide ? wanted : Math.min(wanted, 2);
  const rows: GraphicFigure[][] = [];
  for (let k = 0; k < figures.length; k += across) rows.push(figures.slice(k, k + across));
  return rows.map((row) => rowChunk(setting, row, across));
}

function rowChunk(setting: Setting, row: readonly GraphicFigure[], across: number): Chunk {
  const cell = (setting.width - GAP * (across - 1)) / across;
  const cells = row.map(({ graphic, title, caption, alt }) => {
    // A graphic that has the page for itself is set to its width.
    const scale = Math.min(cell / graphic.width, across === 1 ? 2 : LARGEST);
    return {
      graphic,
      alt,
      scale,
      tall: graphic.height * scale,
      head: title ? linesOf(setting, title, 'text', cell, { weight: 'strong' }) : null,
      foot: caption ? linesOf(setting, caption, 'caption', cell, { fill: GREY.quiet }) : null,
    };
  });
  const heads = Math.max(0, ...cells.map(({ head }) => (head ? head.height + 8 : 0)));
  const height = Math.max(...cells.map(({ tall, foot }) => heads + tall + (foot ? foot.height + 8 : 0)));
  return {
    height,
    gap: 22,
    at: (y) =>
      cells.flatMap(({ graphic, alt, scale, tall, head, foot }, k): Part[] => {
        const x = setting.left + k * (cell + GAP);
        return [
          ...(head ? [{ tag: 'P', items: head.at(x, y) } as const] : []),
          {
            tag: 'Figure',
            alt,
            items: [{ kind: 'group', x, y: y + heads, scale, items: graphic.items }],
          },
          ...(foot ? [{ tag: 'P', items: foot.at(x, y + heads + tall + 8) } as const] : []),
        ];
      }),
  };
}

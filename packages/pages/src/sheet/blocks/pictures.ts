import { markItems } from '../../graphics/marks.ts';
import { GREY } from '../../page/greys.ts';
import type { PictureFigure } from '../../page/page.ts';
import type { Chunk, Setting } from '../chunk.ts';
import { linesOf } from '../chunk.ts';
import type { Part } from '../items.ts';

/** Wall above and below pictures, and between two. */
const WALL = 28;
const BETWEEN = 14;

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** One or two pictures on a wall of middle grey that runs from edge to edge, as large as they can be. */
export function picturesChunk(setting: Setting, figures: readonly PictureFigure[]): Chunk {
  const { paper, left, width } = setting;
  const { boxes, height, beside } = hung(figures, left, width, paper.tallest - 2 * WALL);
  const words = captionOf(figures, beside);
  const caption = words ? linesOf(setting, words, 'caption', width, { fill: GREY.quiet }) : null;
  const wall = height + 2 * WALL;
  return {
    height: wall + (caption ? caption.height + 6 : 0),
    gap: 20,
    at: (y) => [
      {
        tag: 'Artifact',
        items: [{ kind: 'rect', x: 0, y, width: paper.width, height: wall, fill: GREY.wall }],
      },
      ...figures.map((figure, k): Part => {
        const { x, y: top, ...size } = boxes[k];
        const place = y + WALL + top;
        const marks = markItems(figure.marks ?? [], x, place, size.width, size.height);
        return {
          tag: 'Figure',
          alt: figure.alt,
          items: [{ kind: 'picture', picture: figure.picture, x, y: place, ...size }, ...marks],
        };
      }),
      ...(caption ? [{ tag: 'P', items: caption.at(left, y + wall + 6) } as const] : []),
    ],
  };
}

/** Two pictures stand side by side or one above the other, whichever shows more of them. */
function hung(
  figures: readonly PictureFigure[],
  left: number,
  width: number,
  tallest: number,
): { boxes: Box[]; height: number; beside: boolean } {
  const ratios = figures.map(({ picture }) => picture.width / picture.height);
  const beside = row(ratios, left, width, tallest);
  if (figures.length < 2) return { ...beside, beside: true };
  const above = column(ratios, left, width, tallest);
  const area = ({ boxes }: { boxes: Box[] }): number => boxes.reduce((sum, b) => sum + b.width * b.height, 0);
  return area(above) > area(beside) ? { ...above, beside: false } : { ...beside, beside: true };
}

function row(ratios: readonly number[], left: number, width: number, tallest: number) {
  const free = width - BETWEEN * (ratios.length - 1);
  const height = Math.min(tallest, free / ratios.reduce((sum, ratio) => sum + ratio, 0));
  const whole = height * ratios.reduce((sum, ratio) => sum + ratio, 0) + BETWEEN * (ratios.length - 1);
  let x = left + (width - whole) / 2;
  const boxes = ratios.map((ratio): Box => {
    const box = { x, y: 0, width: height * ratio, height };
    x += box.width + BETWEEN;
    return box;
  });
  return { boxes, height };
}

function column(ratios: readonly number[], left: number, width: number, tallest: number) {
  const most = (tallest - BETWEEN * (ratios.length - 1)) / ratios.length;
  let y = 0;
  const boxes = ratios.map((ratio): Box => {
    const w = Math.min(width, most * ratio);
    const box = { x: left + (width - w) / 2, y, width: w, height: w / ratio };
    y += box.height + BETWEEN;
    return box;
  });
  return { boxes, height: y - BETWEEN };
}

/** No letters stand on the wall: neither black nor white can be read well on it. */
function captionOf(figures: readonly PictureFigure[], beside: boolean): string {
  const [first, second] = figures;
  if (!second) return first.caption ?? '';
  const places = beside ? ['Left', 'right'] : ['Above', 'below'];
  return `${places[0]}: ${first.caption ?? ''}; ${places[1]}: ${second.caption ?? ''}.`;
}

import { GREY, SIZE } from '../page/greys.ts';
import type { Graphic, Item } from '../sheet/items.ts';
import type { ClassOverviewData, OverviewAxis, OverviewPlane } from '../types/overview.ts';

const WIDTH = 680;
const HEIGHT = 460;
const MARGIN = 34;

/** Every work as a small picture at its place on two readings. */
export function planeGraphic({ across, up }: OverviewPlane, works: ClassOverviewData['works']): Graphic {
  // The more works, the smaller: together they cover at most half of the plane.
  const side = Math.max(14, Math.min(96, Math.sqrt((0.5 * WIDTH * HEIGHT) / Math.max(1, works.length))));
  const [x, y] = [placer(across, side, WIDTH), placer(up, side, HEIGHT)];
  const pictures = works.flatMap(({ small }, k): Item[] => {
    const [a, b] = [across.values[k], up.values[k]];
    if (a === null || b === null || a === undefined || b === undefined) return [];
    const scale = side / Math.max(small.width, small.height);
    const [w, h] = [small.width * scale, small.height * scale];
    const box = { x: x(a) - w / 2, y: HEIGHT - y(b) - h / 2, width: w, height: h };
    return [
      { kind: 'picture', picture: small, ...box },
      { kind: 'rect', ...box, stroke: GREY.paper, strokeWidth: 0.75 },
    ];
  });
  return {
    width: WIDTH,
    height: HEIGHT,
    items: [
      { kind: 'rect', x: 0, y: 0, width: WIDTH, height: HEIGHT - 24, fill: GREY.wall },
      ...pictures,
      ...ends(across, up),
    ],
  };
}

function placer({ values }: OverviewAxis, side: number, length: number): (value: number) => number {
  const known = values.filter((v) => v !== null);
  const [low, high] = [Math.min(...known), Math.max(...known)];
  const room = high - low || 1;
  const [from, to] = [MARGIN + side / 2, length - MARGIN - side / 2];
  return (value) => (high === low ? length / 2 : from + ((to - from) * (value - low)) / room);
}

function ends(across: OverviewAxis, up: OverviewAxis): Item[] {
  const text = (words: string, x: number, anchor: 'start' | 'middle' | 'end'): Item => ({
    kind: 'text',
    text: words,
    x,
    y: HEIGHT - 6,
    anchor,
    size: SIZE.caption,
    weight: 'regular',
    fill: GREY.quiet,
  });
  return [
    text(`← ${across.ends[0]}`, 0, 'start'),
    text(`downwards ${up.ends[0]}, upwards ${up.ends[1]}`, WIDTH / 2, 'middle'),
    text(`${across.ends[1]} →`, WIDTH, 'end'),
  ];
}

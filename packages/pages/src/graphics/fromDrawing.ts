import type { Drawing, Paint, Shape } from '@halflight/engine';
import { GREY, SIZE } from '../page/greys.ts';
import type { Graphic, Item, Painted } from '../sheet/items.ts';
import type { PagePicture } from '../types/picture.ts';

/** Room around a drawing for strokes and letters that reach over its border. */
const MARGIN = 2;

const TONES = { ink: GREY.ink, quiet: GREY.edge, faint: GREY.hairline, ground: GREY.paper } as const;

/**
 * A reading's small drawing as it stands on paper.
 *
 * @param maps the maps that it names, painted; one that is missing stays a plain grey
 */
export function fromDrawing(
  { width, height, shapes }: Drawing,
  maps: Readonly<Record<string, PagePicture>>,
): Graphic {
  const items = shapes.map((shape) => itemOf(shape, maps));
  return {
    width: width + 2 * MARGIN,
    height: height + 2 * MARGIN,
    items: [{ kind: 'group', x: MARGIN, y: MARGIN, scale: 1, items }],
  };
}

function itemOf(shape: Shape, maps: Readonly<Record<string, PagePicture>>): Item {
  switch (shape.kind) {
    case 'path':
      return { kind: 'path', d: shape.d, ...painted(shape) };
    case 'rect': {
      const { x, y, width, height } = shape;
      return { kind: 'rect', x, y, width, height, ...painted(shape) };
    }
    case 'circle': {
      const { cx, cy, r } = shape;
      return { kind: 'circle', cx, cy, r, ...painted(shape) };
    }
    case 'line': {
      const { x1, y1, x2, y2, dashed } = shape;
      const dash = dashed ? { dash: [3, 3] as const } : {};
      return { kind: 'path', d: `M${x1} ${y1}L${x2} ${y2}`, ...painted(shape), ...dash };
    }
    case 'text': {
      const { x, y, text, anchor, fill } = shape;
      // Words in the quiet tone have to be read on white.
      const ink = fill === 'quiet' ? GREY.quiet : (colour(fill) ?? GREY.ink);
      return { kind: 'text', x, y, text, anchor, size: SIZE.caption, weight: 'regular', fill: ink };
    }
    case 'map': {
      const { x, y, width, height, map } = shape;
      const picture = maps[map];
      return picture
        ? { kind: 'picture', picture, x, y, width, height }
        : { kind: 'rect', x, y, width, height, fill: GREY.hairline };
    }
  }
}

function painted(shape: { fill?: Paint; stroke?: Paint; strokeWidth?: number }): Painted {
  const fill = colour(shape.fill);
  const stroke = colour(shape.stroke);
  return {
    ...(fill && { fill }),
    ...(stroke && { stroke, strokeWidth: shape.strokeWidth ?? 1 }),
  };
}

function colour(paint: Paint | undefined): string | null {
  if (paint === undefined || paint === 'none') return null;
  return typeof paint === 'object' ? paint.css : TONES[paint];
}

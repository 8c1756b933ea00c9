import type { CurvePoint } from './curve.ts';

/** A rectangle for the small picture of a version. */
export interface StripPicture {
  readonly version: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Its place on the curve. */
  readonly at: readonly [number, number];
}

/** The process strip: small pictures from left to right, hung at the height of what they brought. */
export interface Strip {
  readonly width: number;
  readonly height: number;
  readonly pictures: readonly StripPicture[];
  /** The curve, x and y in turn: below each picture from side to side, so that it crosses none. */
  readonly curve: readonly number[];
}

const MARGIN = 24;
const GAP = 16;
/** Space below a picture for its number. */
const LABEL = 22;
/** How far the strip rises from the first version to the last, in heights of a picture. */
const RISE = 1;

/**
 * Lays the versions of a work out as one strip.
 *
 * From left to right is work done: pictures that cost more effort stand farther apart, none overlaps the one
 * before. Upwards is what it brought: a flat row of pictures is work that changed nothing.
 *
 * @param sizes width and height of each version, in any unit
 * @param side long side of a small picture
 */
export function stripLayout(
  points: readonly CurvePoint[],
  sizes: readonly (readonly [number, number])[],
  side: number,
): Strip {
  const boxes = sizes.map(([w, h]) => [(side * w) / Math.max(w, h), (side * h) / Math.max(w, h)]);
  const tallest = Math.max(...boxes.map(([, h]) => h));
  const most = Math.max(points.at(-1)?.impact ?? 0, 1e-9);
  const rise = RISE * tallest;
  const floor = MARGIN + rise + tallest;
  let right = MARGIN - GAP;
  const pictures = points.map(({ version, effort, impact }, k): StripPicture => {
    const [width, height] = boxes[k];
    const spent = k === 0 ? 0 : effort - points[k - 1].effort;
    const x = right + GAP + Math.min(1, spent) * side;
    right = x + width;
    const bottom = floor - (impact / most) * rise;
    return { version, x, y: bottom - height, width, height, at: [x + width / 2, bottom + LABEL / 2] };
  });
  return {
    width: Math.ceil(right + MARGIN),
    height: Math.ceil(floor + LABEL + MARGIN),
    pictures,
    curve: pictures.flatMap(({ x, width, at: [, y] }) => [x, y, x + width, y]),
  };
}

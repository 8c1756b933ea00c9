/** Strokes as plain numbers, so that many thousands fit and can be drawn at any size. */

/** Numbers of a point: x, y, half width (all in widths of the picture), red, green, blue (linear). */
export const POINT = 6;
/** Numbers of a stroke: first point, points, opacity, dryness, softness, streak, texture row, texture column. */
export const STROKE = 8;

/** A growing list of strokes in the order in which they are painted. */
export interface Strokes {
  points: Float32Array;
  pointCount: number;
  strokes: Float32Array;
  count: number;
}

/** How a stroke is laid on. */
export interface Touch {
  /** 0…1: how much of the ground the paint hides. */
  opacity: number;
  /** 0…1: how much the brush runs dry and breaks up. */
  dryness: number;
  /** 0…1: softness of the long edges, as a share of the half width. */
  softness: number;
  /** Deviation of value between bristles, as a factor. */
  streak: number;
}

export function strokesOf(): Strokes {
  return { points: new Float32Array(1 << 16), pointCount: 0, strokes: new Float32Array(1 << 13), count: 0 };
}

/** Adds a stroke of `count` points (POINT numbers each) with its touch; `row` and `column` (0…1) choose the bristles. */
export function addStroke(
  list: Strokes,
  points: Float32Array,
  count: number,
  touch: Touch,
  row: number,
  column: number,
): void {
  const first = list.pointCount;
  const end = (first + count) * POINT;
  if (end > list.points.length) list.points = grown(list.points, end);
  list.points.set(points.subarray(0, count * POINT), first * POINT);
  list.pointCount += count;
  const at = list.count * STROKE;
  if (at + STROKE > list.strokes.length) list.strokes = grown(list.strokes, at + STROKE);
  const s = list.strokes;
  s[at] = first;
  s[at + 1] = count;
  s[at + 2] = touch.opacity;
  s[at + 3] = touch.dryness;
  s[at + 4] = touch.softness;
  s[at + 5] = touch.streak;
  s[at + 6] = row;
  s[at + 7] = column;
  list.count++;
}

function grown(a: Float32Array, need: number): Float32Array {
  const out = new Float32Array(Math.max(need, a.length * 2));
  out.set(a);
  return out;
}

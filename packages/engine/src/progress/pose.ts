/**
 * How a later version lies on an earlier one: first mirrored, then turned, then scaled and shifted.
 *
 * Coordinates are shares of width and height. A point (u, v) of the later picture, after mirroring and turning, lies
 * at (x + u·width, y + v·height) of the earlier one.
 */
export interface Pose {
  readonly mirrored: boolean;
  /** Clockwise quarter turns that bring the later picture upright: 0…3. */
  readonly turns: 0 | 1 | 2 | 3;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export const SAME_POSE: Pose = { mirrored: false, turns: 0, x: 0, y: 0, width: 1, height: 1 };

/** Mirrors and turns a point within its own picture. */
function upright(pose: Pose, u: number, v: number): [number, number] {
  let a = pose.mirrored ? 1 - u : u;
  let b = v;
  for (let k = 0; k < pose.turns; k++) [a, b] = [1 - b, a];
  return [a, b];
}

/** Where a point of the later picture lies on the earlier one; outside 0…1 where the earlier one does not reach. */
export function toEarlier(pose: Pose, u: number, v: number): [number, number] {
  const [a, b] = upright(pose, u, v);
  return [pose.x + a * pose.width, pose.y + b * pose.height];
}

/** Where a point of the earlier picture lies on the later one: areas and answers travel this way. */
export function toLater(pose: Pose, x: number, y: number): [number, number] {
  let a = (x - pose.x) / pose.width;
  let b = (y - pose.y) / pose.height;
  for (let k = 0; k < pose.turns; k++) [a, b] = [b, 1 - a];
  return [pose.mirrored ? 1 - a : a, b];
}

/** A closed outline (x, y in turn) carried from the earlier picture to the later one. */
export function carryOutline(pose: Pose, outline: readonly number[]): number[] {
  const out: number[] = [];
  for (let i = 0; i + 1 < outline.length; i += 2) out.push(...toLater(pose, outline[i], outline[i + 1]));
  return out;
}

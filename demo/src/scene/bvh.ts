/** A tree of bounding boxes over the bodies, so that a ray meets few of them. */
import { hitSolid } from './meet.ts';
import type { Solid } from './solid.ts';

/** Flat tree: 6 bounds a node; `left` ≥ 0 is the first child (the second follows), < 0 a leaf's first item. */
export interface Tree {
  readonly bounds: Float64Array;
  readonly left: Int32Array;
  readonly count: Int32Array;
  readonly items: readonly Solid[];
  /** Bodies without bounds: tested always. */
  readonly endless: readonly Solid[];
}

const LEAF = 2;

/** Builds the tree by halving at the median of the longest axis of the centres. */
export function treeOf(solids: readonly Solid[]): Tree {
  const endless = solids.filter((s) => !s.bounds.every(Number.isFinite));
  const items = solids.filter((s) => s.bounds.every(Number.isFinite));
  const size = Math.max(1, 2 * items.length);
  const bounds = new Float64Array(6 * size);
  const left = new Int32Array(size);
  const count = new Int32Array(size);
  let used = 1;
  const centre = (s: Solid, axis: number) => s.bounds[axis]! + s.bounds[axis + 3]!;
  const build = (node: number, from: number, to: number) => {
    const b = bounds.subarray(node * 6, node * 6 + 6);
    b.set([Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity]);
    for (let i = from; i < to; i++)
      for (let a = 0; a < 3; a++) {
        b[a] = Math.min(b[a]!, items[i]!.bounds[a]!);
        b[a + 3] = Math.max(b[a + 3]!, items[i]!.bounds[a + 3]!);
      }
    if (to - from <= LEAF) {
      left[node] = -1 - from;
      count[node] = to - from;
      return;
    }
    let axis = 0;
    let spread = -1;
    for (let a = 0; a < 3; a++) {
      let low = Infinity;
      let high = -Infinity;
      for (let i = from; i < to; i++) {
        low = Math.min(low, centre(items[i]!, a));
        high = Math.max(high, centre(items[i]!, a));
      }
      if (high - low > spread) {
        spread = high - low;
        axis = a;
      }
    }
    const part = items.slice(from, to).sort((p, q) => centre(p, axis) - centre(q, axis) || p.index - q.index);
    for (let i = 0; i < part.length; i++) items[from + i] = part[i]!;
    const first = used;
    used += 2;
    left[node] = first;
    const middle = (from + to) >> 1;
    build(first, from, middle);
    build(first + 1, middle, to);
  };
  if (items.length > 0) build(0, 0, items.length);
  return { bounds, left, count, items, endless };
}

/** Nearest meeting of the last `nearest` call. */
export interface Hit {
  t: number;
  solid: Solid | null;
}

const stack = new Int32Array(128);

/** Finds the nearest body along the ray between tMin and tMax; the answer stands in `hit`. */
export function nearest(
  tree: Tree,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
  tMax: number,
  hit: Hit,
): boolean {
  let best = tMax;
  let found: Solid | null = null;
  for (const s of tree.endless) {
    const t = hitSolid(s, ox, oy, oz, dx, dy, dz, tMin, best);
    if (t < best) {
      best = t;
      found = s;
    }
  }
  if (tree.items.length > 0) {
    const ix = 1 / (dx || 1e-12);
    const iy = 1 / (dy || 1e-12);
    const iz = 1 / (dz || 1e-12);
    const fx = ix < 0 ? 3 : 0;
    const fy = iy < 0 ? 3 : 0;
    const fz = iz < 0 ? 3 : 0;
    const { bounds, left, count, items } = tree;
    let top = 0;
    stack[top++] = 0;
    while (top > 0) {
      const node = stack[--top]!;
      if (!crosses(bounds, node * 6, ox, oy, oz, ix, iy, iz, fx, fy, fz, tMin, best)) continue;
      const l = left[node]!;
      if (l < 0) {
        const from = -1 - l;
        for (let i = from; i < from + count[node]!; i++) {
          const s = items[i]!;
          const t = hitSolid(s, ox, oy, oz, dx, dy, dz, tMin, best);
          if (t < best) {
            best = t;
            found = s;
          }
        }
      } else {
        stack[top++] = l + 1;
        stack[top++] = l;
      }
    }
  }
  hit.t = best;
  hit.solid = found;
  return found !== null;
}

/** Some body that throws a shadow along the ray, or null. `guess` (the last blocker) is tried first. */
export function blocker(
  tree: Tree,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
  tMax: number,
  guess: Solid | null,
): Solid | null {
  if (guess !== null && hitSolid(guess, ox, oy, oz, dx, dy, dz, tMin, tMax) < tMax) return guess;
  for (const s of tree.endless)
    if (s.shadow && hitSolid(s, ox, oy, oz, dx, dy, dz, tMin, tMax) < tMax) return s;
  if (tree.items.length === 0) return null;
  const ix = 1 / (dx || 1e-12);
  const iy = 1 / (dy || 1e-12);
  const iz = 1 / (dz || 1e-12);
  const fx = ix < 0 ? 3 : 0;
  const fy = iy < 0 ? 3 : 0;
  const fz = iz < 0 ? 3 : 0;
  const { bounds, left, count, items } = tree;
  let top = 0;
  stack[top++] = 0;
  while (top > 0) {
    const node = stack[--top]!;
    if (!crosses(bounds, node * 6, ox, oy, oz, ix, iy, iz, fx, fy, fz, tMin, tMax)) continue;
    const l = left[node]!;
    if (l < 0) {
      const from = -1 - l;
      for (let i = from; i < from + count[node]!; i++) {
        const s = items[i]!;
        if (s.shadow && hitSolid(s, ox, oy, oz, dx, dy, dz, tMin, tMax) < tMax) return s;
      }
    } else {
      stack[top++] = l + 1;
      stack[top++] = l;
    }
  }
  return null;
}

/**
 * Whether the ray passes the box at `n` between tMin and tMax. `fx`, `fy`, `fz` are 0 where the ray runs up the
 * axis and 3 where it runs down: the offset of the face it meets first.
 */
function crosses(
  b: Float64Array,
  n: number,
  ox: number,
  oy: number,
  oz: number,
  ix: number,
  iy: number,
  iz: number,
  fx: number,
  fy: number,
  fz: number,
  tMin: number,
  tMax: number,
): boolean {
  let near = (b[n + fx]! - ox) * ix;
  let far = (b[n + 3 - fx]! - ox) * ix;
  const nearY = (b[n + fy + 1]! - oy) * iy;
  const farY = (b[n + 4 - fy]! - oy) * iy;
  const nearZ = (b[n + fz + 2]! - oz) * iz;
  const farZ = (b[n + 5 - fz]! - oz) * iz;
  if (nearY > near) near = nearY;
  if (nearZ > near) near = nearZ;
  if (tMin > near) near = tMin;
  if (farY < far) far = farY;
  if (farZ < far) far = farZ;
  if (tMax < far) far = tMax;
  return near <= far;
}

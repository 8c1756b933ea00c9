import type { Regions } from './regions.ts';

/** Differences up to which touching regions become one piece: log-chromaticity, ℓ. Our defaults. */
const COLOUR = 0.05;
const DARKER = 0.16;

/** Touching regions of nearly one colour, joined: a stripe, a lit side, a shadow. */
export interface Pieces {
  readonly count: number;
  /** Piece of each region, −1 where a region is not valid. */
  readonly of: Int32Array;
  readonly area: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly l: Float64Array;
  readonly grain: Float64Array;
}

/**
 * Joins touching valid regions, the likest first, as long as the means of the two pieces differ by less than a
 * step (sum of squares in units of the two scales below 1).
 */
export function piecesOf(regions: Regions, valid: Uint8Array): Pieces {
  const { count, first, neighbour } = regions;
  const parent = Int32Array.from({ length: count }, (_, i) => i);
  const x = regions.x.slice();
  const y = regions.y.slice();
  const l = regions.l.slice();
  const grain = regions.grain.slice();
  const area = regions.area.slice();
  const root = (i: number): number => {
    let r = i;
    while (parent[r] !== r) r = parent[r];
    parent[i] = r;
    return r;
  };
  const apart = (a: number, b: number) =>
    ((x[a] - x[b]) ** 2 + (y[a] - y[b]) ** 2) / (COLOUR * COLOUR) + ((l[a] - l[b]) / DARKER) ** 2;

  const around: Set<number>[] = Array.from({ length: count }, () => new Set());
  const heap = new Heap();
  for (let i = 0; i < count; i++) {
    if (!valid[i]) continue;
    for (let e = first[i]; e < first[i + 1]; e++) {
      const j = neighbour[e];
      if (!valid[j]) continue;
      around[i].add(j);
      if (j > i) {
        const d = apart(i, j);
        if (d < 1) heap.push(d, i, j);
      }
    }
  }
  while (heap.size > 0) {
    const { d, a, b } = heap.pop();
    if (parent[a] !== a || parent[b] !== b || apart(a, b) !== d) continue;
    const [to, from] = around[a].size >= around[b].size ? [a, b] : [b, a];
    const w = area[from] / (area[a] + area[b]);
    x[to] += w * (x[from] - x[to]);
    y[to] += w * (y[from] - y[to]);
    l[to] += w * (l[from] - l[to]);
    grain[to] += w * (grain[from] - grain[to]);
    area[to] += area[from];
    parent[from] = to;
    for (const n of around[from]) {
      around[n].delete(from);
      if (n === to) continue;
      around[n].add(to);
      around[to].add(n);
    }
    for (const n of around[to]) {
      const e = apart(to, n);
      if (e < 1) heap.push(e, Math.min(to, n), Math.max(to, n));
    }
  }

  const number = new Int32Array(count).fill(-1);
  const of = new Int32Array(count).fill(-1);
  const roots: number[] = [];
  for (let i = 0; i < count; i++) {
    if (!valid[i]) continue;
    const r = root(i);
    if (number[r] < 0) {
      number[r] = roots.length;
      roots.push(r);
    }
    of[i] = number[r];
  }
  const pick = (v: Float64Array) => Float64Array.from(roots, (r) => v[r]);
  return {
    count: roots.length,
    of,
    area: pick(area),
    x: pick(x),
    y: pick(y),
    l: pick(l),
    grain: pick(grain),
  };
}

/** Smallest first; equal keys by their regions, so that the order never depends on history. */
class Heap {
  private readonly items: { d: number; a: number; b: number }[] = [];

  get size(): number {
    return this.items.length;
  }

  push(d: number, a: number, b: number): void {
    const items = this.items;
    let i = items.length;
    items.push({ d, a, b });
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (!before(items[i], items[up])) break;
      [items[i], items[up]] = [items[up], items[i]];
      i = up;
    }
  }

  pop(): { d: number; a: number; b: number } {
    const items = this.items;
    const top = items[0];
    const last = items.pop()!;
    if (items.length > 0) {
      items[0] = last;
      let i = 0;
      for (;;) {
        let least = i;
        for (const child of [2 * i + 1, 2 * i + 2]) {
          if (child < items.length && before(items[child], items[least])) least = child;
        }
        if (least === i) break;
        [items[i], items[least]] = [items[least], items[i]];
        i = least;
      }
    }
    return top;
  }
}

function before(p: { d: number; a: number; b: number }, q: { d: number; a: number; b: number }): boolean {
  return p.d !== q.d ? p.d < q.d : p.a !== q.a ? p.a < q.a : p.b < q.b;
}

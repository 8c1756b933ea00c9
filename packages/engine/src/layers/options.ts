import type { LayerNode, LayerStack } from './stack.ts';

/** Long side of the grid on which places are compared. */
const GRID = 96;
/** Common part of two covers, of what either covers, from which they stand for the same place ("our default"). */
const SAME_PLACE = 0.5;
/** What the same blend mode counts for beside that when two neighbours are alike. */
const SAME_MODE = 0.25;

/**
 * Sets of layers that stand for the same place and are never seen together: in one group, at most one of them
 * visible, each hidden one next to the visible one and covering what it covers. They are versions of one thing of
 * which one is to be chosen.
 */
export function findOptions({ width, height, nodes }: LayerStack): LayerNode[][] {
  const sets: LayerNode[][] = [];
  const search = (list: readonly LayerNode[]): void => {
    // Without a hidden one there is nothing to choose between.
    if (list.some(({ visible }) => !visible)) {
      const covers = list.map((node) => coverOf(node, width, height));
      sets.push(...setsOf(list, covers).map((set) => set.map((i) => list[i])));
    }
    for (const node of list) if (node.kind === 'group') search(node.children);
  };
  search(nodes);
  return sets;
}

/** The sets in one group, as indices: each hidden node joins the visible neighbour it is most like. */
function setsOf(list: readonly LayerNode[], covers: readonly Float32Array[]): number[][] {
  const likeness = (i: number, j: number): number => {
    const common = overlap(covers[i], covers[j]);
    return common < SAME_PLACE ? 0 : common + (list[i].blend === list[j].blend ? SAME_MODE : 0);
  };
  const sets = new Map<number, number[]>();
  let lonely: number[] = [];
  const without: number[][] = [];
  for (let i = 0; i < list.length; i++) {
    if (list[i].visible) {
      without.push(lonely);
      lonely = [];
      continue;
    }
    let below = i;
    while (below >= 0 && !list[below].visible) below--;
    let above = i;
    while (above < list.length && !list[above].visible) above++;
    const low = below >= 0 ? likeness(i, below) : 0;
    const high = above < list.length ? likeness(i, above) : 0;
    if (low > 0 || high > 0) {
      const chosen = low > high ? below : above;
      sets.set(
        chosen,
        [...(sets.get(chosen) ?? [chosen]), i].sort((a, b) => a - b),
      );
    } else if (lonely.every((j) => likeness(i, j) > 0)) lonely.push(i);
    else {
      without.push(lonely);
      lonely = [i];
    }
  }
  without.push(lonely);
  return [...sets.values(), ...without.filter((set) => set.length > 1)].sort((a, b) => a[0] - b[0]);
}

/** How much of each cell of a coarse grid is covered, 0…1, whether it is visible or not. */
function coverOf(node: LayerNode, width: number, height: number): Float32Array {
  const scale = Math.min(1, GRID / Math.max(width, height));
  const w = Math.max(1, Math.round(width * scale));
  const h = Math.max(1, Math.round(height * scale));
  const cover = new Float32Array(w * h);
  if (node.kind === 'group') {
    for (const child of node.children) {
      const other = coverOf(child, width, height);
      for (let p = 0; p < cover.length; p++) cover[p] = 1 - (1 - cover[p]) * (1 - other[p]);
    }
    return cover;
  }
  const { raster, x, y } = node;
  const full = 2 ** raster.depth - 1;
  const cell = (w * h) / (width * height);
  for (let v = Math.max(0, -y); v < Math.min(raster.height, height - y); v++)
    for (let u = Math.max(0, -x); u < Math.min(raster.width, width - x); u++) {
      const a = raster.channels === 4 ? raster.data[4 * (v * raster.width + u) + 3] / full : 1;
      const p = Math.floor(((y + v) * h) / height) * w + Math.floor(((x + u) * w) / width);
      cover[p] = Math.min(1, cover[p] + a * cell);
    }
  return cover;
}

function overlap(a: Float32Array, b: Float32Array): number {
  let [common, either] = [0, 0];
  for (let p = 0; p < a.length; p++) {
    common += Math.min(a[p], b[p]);
    either += Math.max(a[p], b[p]);
  }
  return either === 0 ? 0 : common / either;
}

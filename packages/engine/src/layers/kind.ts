import type { LayerNode, PaintedLayer } from './stack.ts';

/**
 * What a part of a layered picture is: `paint` that can become one with what it lies on, an `effect` that stays
 * apart because it is still turned up and down (fog, gradient, light), or a group with `both`.
 */
export type PartKind = 'paint' | 'effect' | 'both';

/** Share of a layer's places that must let what is below through ("our default"). */
const SEMI_SHARE = 0.5;
/** Alpha below which a place counts as letting it through ("our default"). */
const SEMI = 0.9;
/** Mean change from pixel to pixel, of the full range, at a long side of 900 px, below which it is soft ("our default"). */
const SOFT = 0.02;
/** Rows above which softness is told from every third. */
const MANY_ROWS = 450;

/**
 * @param backed share of its paint that lies over something
 * @param longSide of the size at which the layers are given
 */
export function kindOf(node: LayerNode, backed: (node: LayerNode) => number, longSide: number): PartKind {
  const special = node.blend !== 'normal' || node.operator !== 'source-over';
  if (special) return 'effect';
  if (node.kind === 'layer') return backed(node) >= 0.5 && isGlaze(node, longSide) ? 'effect' : 'paint';
  const kinds = new Set(
    node.children.filter((child) => child.visible).map((child) => kindOf(child, backed, longSide)),
  );
  if (kinds.size === 0) return 'paint';
  return kinds.size === 1 ? [...kinds][0] : 'both';
}

/** Thin and soft: most of it lets through, and it hardly changes from one place to the next. */
function isGlaze({ raster, opacity }: PaintedLayer, longSide: number): boolean {
  const { width, height, channels, data, depth } = raster;
  const full = 2 ** depth - 1;
  const thin = (SEMI * full) / opacity;
  let [places, semi] = [0, 0];
  for (let i = 0; i < data.length; i += channels) {
    const code = channels === 4 ? data[i + 3] : full;
    if (code === 0) continue;
    places++;
    if (code < thin) semi++;
  }
  if (opacity === 0 || places === 0 || semi < SEMI_SHARE * places) return false;
  // Two rows of colour times alpha, and alpha, 0…1: each place is compared with the next and with the one below.
  let row = new Float32Array(4 * width);
  let below = new Float32Array(4 * width);
  const fill = (to: Float32Array, y: number): void => {
    for (let at = 0, i = channels * width * y; at < to.length; at += 4, i += channels) {
      const a = (channels === 4 ? data[i + 3] : full) * (opacity / full);
      const by = a / full;
      to[at] = by * data[i];
      to[at + 1] = by * data[i + 1];
      to[at + 2] = by * data[i + 2];
      to[at + 3] = a;
    }
  };
  // A mean of so many rows is that of all of them.
  const by = height > MANY_ROWS ? 3 : 1;
  let [change, steps] = [0, 0];
  for (let y = 0; y < height; y += by) {
    if (by > 1 || y === 0) fill(row, y);
    if (y + 1 < height) fill(below, y + 1);
    for (let at = 0; at < row.length; at += 4) {
      if (row[at + 3] === 0) continue;
      if (at + 4 < row.length) {
        change += apart(row, at, row, at + 4);
        steps++;
      }
      if (y + 1 < height) {
        change += apart(row, at, below, at);
        steps++;
      }
    }
    [row, below] = [below, row];
  }
  return (change / Math.max(1, steps)) * (longSide / 900) < SOFT;
}

/** How far two places are apart, colour as far as it is seen. */
function apart(p: Float32Array, i: number, q: Float32Array, j: number): number {
  return Math.max(
    Math.abs(p[i] - q[j]),
    Math.abs(p[i + 1] - q[j + 1]),
    Math.abs(p[i + 2] - q[j + 2]),
    Math.abs(p[i + 3] - q[j + 3]),
  );
}

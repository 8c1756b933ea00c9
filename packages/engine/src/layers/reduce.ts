import { spans } from '../views/spans.ts';
import { BESIDE, type Blocks, blocksOf, type Part, type Pixels } from './blocks.ts';
import type { LayerNode, LayerStack } from './stack.ts';

/**
 * The size layers are weighed at: that of the close view.
 *
 * @param pixels the most there may be
 */
export function weighingSize(
  width: number,
  height: number,
  pixels: number,
): { width: number; height: number } {
  const scale = Math.min(1, Math.sqrt(pixels / (width * height)));
  return { width: Math.max(1, Math.floor(width * scale)), height: Math.max(1, Math.floor(height * scale)) };
}

/**
 * The painted part of a layer inside the canvas, brought to the size it is weighed at.
 *
 * Averages code values times alpha: laying normal layers over each other and averaging can then nearly be swapped.
 * Whole blocks of pixels are summed first, as whole numbers, then blocks are averaged by area.
 *
 * @param canvas the size of the whole picture
 * @param small the size it is weighed at
 */
export function reduceLayer(
  layer: Pixels,
  canvas: { width: number; height: number },
  small: { width: number; height: number },
): Pixels {
  const part = paintedPart(layer, canvas);
  if (small.width === canvas.width && small.height === canvas.height) return cut(layer, part);
  const { raster } = layer;
  const sx = canvas.width / small.width;
  const sy = canvas.height / small.height;
  const x = Math.floor(part.x0 / sx);
  const y = Math.floor(part.y0 / sy);
  const width = Math.max(0, Math.min(small.width, Math.ceil(part.x1 / sx)) - x);
  const height = Math.max(0, Math.min(small.height, Math.ceil(part.y1 / sy)) - y);
  const size = { x: Math.max(1, Math.floor(sx)), y: Math.max(1, Math.floor(sy)) };
  const columns = tripleTaps(canvas.width / size.x, small.width);
  const rows = tripleTaps(canvas.height / size.y, small.height);
  const full = 2 ** raster.depth - 1;
  const stretch = 65535 / full;
  const data = new Uint16Array(4 * width * height);
  const blocks = blocksOf(layer, canvas, part, size);
  // A row of the result lies in at most three rows of blocks, and shares them with the next.
  const narrow = Array.from({ length: 4 }, () => new Float64Array(4 * width));
  let made = -1;
  for (let v = 0; v < height; v++) {
    const from = rows.from[y + v];
    for (let row = Math.max(made + 1, from); row < from + 3; row++) {
      const line = narrow[row % 4];
      if (row * size.y < part.y1 && (row + 1) * size.y > part.y0) narrowBlocks(blocks(row), columns, x, line);
      else line.fill(0);
      made = row;
    }
    const [one, two, three] = [narrow[from % 4], narrow[(from + 1) % 4], narrow[(from + 2) % 4]];
    const w1 = rows.weights[3 * (y + v)];
    const w2 = rows.weights[3 * (y + v) + 1];
    const w3 = rows.weights[3 * (y + v) + 2];
    for (let at = 0, to = 4 * v * width; at < 4 * width; at += 4, to += 4) {
      const a = w1 * one[at + 3] + w2 * two[at + 3] + w3 * three[at + 3];
      if (a <= 0) continue;
      const by = stretch / a;
      data[to] = (w1 * one[at] + w2 * two[at] + w3 * three[at]) * by + 0.5;
      data[to + 1] = (w1 * one[at + 1] + w2 * two[at + 1] + w3 * three[at + 1]) * by + 0.5;
      data[to + 2] = (w1 * one[at + 2] + w2 * two[at + 2] + w3 * three[at + 2]) * by + 0.5;
      data[to + 3] = Math.min(full, a) * stretch + 0.5;
    }
  }
  return { raster: { width, height, channels: 4, depth: 16, data, space: raster.space }, x, y };
}

/** Averages a row of blocks to the columns of the result, from column `x` on. */
function narrowBlocks(
  { first, sums }: Blocks,
  { from, weights }: ReturnType<typeof tripleTaps>,
  x: number,
  out: Float64Array,
): void {
  for (let u = x, to = 0; to < out.length; u++, to += 4) {
    const at = 4 * (from[u] - first + BESIDE);
    if (sums[at + 3] + sums[at + 7] + sums[at + 11] === 0) {
      out[to] = 0;
      out[to + 1] = 0;
      out[to + 2] = 0;
      out[to + 3] = 0;
      continue;
    }
    const w1 = weights[3 * u];
    const w2 = weights[3 * u + 1];
    const w3 = weights[3 * u + 2];
    out[to] = w1 * sums[at] + w2 * sums[at + 4] + w3 * sums[at + 8];
    out[to + 1] = w1 * sums[at + 1] + w2 * sums[at + 5] + w3 * sums[at + 9];
    out[to + 2] = w1 * sums[at + 2] + w2 * sums[at + 6] + w3 * sums[at + 10];
    out[to + 3] = w1 * sums[at + 3] + w2 * sums[at + 7] + w3 * sums[at + 11];
  }
}

/** `spans` of less than two source places each, so that they reach over three at most: all in two arrays. */
function tripleTaps(source: number, size: number): { from: Int32Array; weights: Float64Array } {
  const from = new Int32Array(size);
  const weights = new Float64Array(3 * size);
  spans(source, size).forEach((tap, i) => {
    from[i] = tap.from;
    weights.set(tap.weights, 3 * i);
  });
  return { from, weights };
}

/** The smallest rectangle of the canvas that holds everything painted. */
function paintedPart({ raster, x, y }: Pixels, canvas: { width: number; height: number }): Part {
  const { data, channels } = raster;
  const left = Math.max(0, x);
  const right = Math.min(canvas.width, x + raster.width);
  const top = Math.max(0, y);
  const bottom = Math.min(canvas.height, y + raster.height);
  const nothing = { x0: 0, x1: 0, y0: 0, y1: 0 };
  if (right <= left || bottom <= top) return nothing;
  if (channels === 3) return { x0: left, x1: right, y0: top, y1: bottom };
  /** First painted column of a row in [from, to), or `to`. */
  const first = (v: number, from: number, to: number): number => {
    let i = 4 * ((v - y) * raster.width + from - x) + 3;
    for (let u = from; u < to; u++, i += 4) if (data[i] !== 0) return u;
    return to;
  };
  let y0 = top;
  while (y0 < bottom && first(y0, left, right) === right) y0++;
  if (y0 === bottom) return nothing;
  let y1 = bottom;
  while (first(y1 - 1, left, right) === right) y1--;
  let x0 = right;
  let x1 = left;
  // Each row is looked at only outside of what is known to be painted.
  for (let v = y0; v < y1; v++) {
    x0 = first(v, left, x0);
    let i = 4 * ((v - y) * raster.width + right - 1 - x) + 3;
    for (let u = right; u > x1; u--, i -= 4)
      if (data[i] !== 0) {
        x1 = u;
        break;
      }
  }
  return { x0, x1, y0, y1 };
}

/** A copy of only that part; the layer itself when it is all of it. */
function cut(layer: Pixels, { x0, y0, x1, y1 }: Part): Pixels {
  const { raster, x, y } = layer;
  const [width, height] = [x1 - x0, y1 - y0];
  if (width === raster.width && height === raster.height) return layer;
  const data = new (raster.depth === 8 ? Uint8Array : Uint16Array)(raster.channels * width * height);
  for (let v = 0; v < height; v++) {
    const from = raster.channels * ((y0 + v - y) * raster.width + x0 - x);
    data.set(raster.data.subarray(from, from + raster.channels * width), raster.channels * v * width);
  }
  return { raster: { ...raster, width, height, data }, x: x0, y: y0 };
}

/** The same picture with every layer at the size it is weighed at; the picture itself when it is small enough. */
export function reduceStack(stack: LayerStack, pixels: number): LayerStack {
  const small = weighingSize(stack.width, stack.height, pixels);
  if (small.width === stack.width && small.height === stack.height) return stack;
  const reduce = (node: LayerNode): LayerNode =>
    node.kind === 'group'
      ? { ...node, children: node.children.map(reduce) }
      : { ...node, ...reduceLayer(node, stack, small) };
  return { ...small, nodes: stack.nodes.map(reduce) };
}

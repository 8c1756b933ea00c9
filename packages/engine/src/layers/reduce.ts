import { spans } from '../views/spans.ts';
import type { LayerNode, LayerStack, PaintedLayer } from './stack.ts';

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

type Pixels = Pick<PaintedLayer, 'raster' | 'x' | 'y'>;

/**
 * The painted part of a layer inside the canvas, brought to the size it is weighed at.
 *
 * Averages code values times alpha: laying normal layers over each other and averaging can then nearly be swapped.
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
  const columns = spans(canvas.width, small.width);
  const rows = spans(canvas.height, small.height);
  const full = 2 ** raster.depth - 1;
  const data = new Uint16Array(4 * width * height);
  const { channels } = raster;
  for (let v = 0; v < height; v++)
    for (let u = 0; u < width; u++) {
      let [r, g, b, a] = [0, 0, 0, 0];
      const row = rows[y + v];
      const column = columns[x + u];
      for (let j = 0; j < row.weights.length; j++) {
        const sourceY = row.from + j - layer.y;
        if (sourceY < 0 || sourceY >= raster.height) continue;
        for (let i = 0; i < column.weights.length; i++) {
          const sourceX = column.from + i - layer.x;
          if (sourceX < 0 || sourceX >= raster.width) continue;
          const at = channels * (sourceY * raster.width + sourceX);
          const weight =
            row.weights[j] * column.weights[i] * (channels === 4 ? raster.data[at + 3] / full : 1);
          if (weight === 0) continue;
          r += weight * raster.data[at];
          g += weight * raster.data[at + 1];
          b += weight * raster.data[at + 2];
          a += weight;
        }
      }
      if (a === 0) continue;
      const to = 4 * (v * width + u);
      data[to] = Math.round(((r / a) * 65535) / full);
      data[to + 1] = Math.round(((g / a) * 65535) / full);
      data[to + 2] = Math.round(((b / a) * 65535) / full);
      data[to + 3] = Math.round(Math.min(1, a) * 65535);
    }
  return { raster: { width, height, channels: 4, depth: 16, data, space: raster.space }, x, y };
}

interface Part {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** The smallest rectangle of the canvas that holds everything painted. */
function paintedPart({ raster, x, y }: Pixels, canvas: { width: number; height: number }): Part {
  const left = Math.max(0, x);
  const right = Math.min(canvas.width, x + raster.width);
  let [x0, x1, y0, y1] = [right, left, Number.POSITIVE_INFINITY, 0];
  for (let v = Math.max(0, y); v < Math.min(canvas.height, y + raster.height); v++)
    for (let u = left; u < right; u++) {
      if (raster.channels === 4 && raster.data[4 * ((v - y) * raster.width + u - x) + 3] === 0) continue;
      if (u < x0) x0 = u;
      if (u >= x1) x1 = u + 1;
      if (v < y0) y0 = v;
      y1 = v + 1;
    }
  return x1 > x0 && y1 > y0 ? { x0, x1, y0, y1 } : { x0: 0, x1: 0, y0: 0, y1: 0 };
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

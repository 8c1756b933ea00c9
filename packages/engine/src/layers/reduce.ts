import type { Raster } from '../views/raster.ts';
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
  const stretch = 65535 / full;
  const data = new Uint16Array(4 * width * height);
  const { channels } = raster;
  // Rows are joined first, as far as there is paint: the loop over all pixels has no borders in it that way.
  const band = new Float64Array(4 * (part.x1 - part.x0));
  for (let v = 0; v < height; v++) {
    const row = rows[y + v];
    band.fill(0);
    for (let j = 0; j < row.weights.length; j++) {
      const sourceY = row.from + j;
      if (sourceY < part.y0 || sourceY >= part.y1) continue;
      const start = channels * ((sourceY - layer.y) * raster.width + part.x0 - layer.x);
      addRow(band, raster, start, row.weights[j], full);
    }
    for (let u = 0; u < width; u++) {
      const { from, weights } = columns[x + u];
      let [r, g, b, a] = [0, 0, 0, 0];
      const last = Math.min(weights.length, part.x1 - from);
      for (let i = Math.max(0, part.x0 - from); i < last; i++) {
        const at = 4 * (from + i - part.x0);
        const weight = weights[i];
        r += weight * band[at];
        g += weight * band[at + 1];
        b += weight * band[at + 2];
        a += weight * band[at + 3];
      }
      if (a === 0) continue;
      const to = 4 * (v * width + u);
      data[to] = Math.round((r / a) * stretch);
      data[to + 1] = Math.round((g / a) * stretch);
      data[to + 2] = Math.round((b / a) * stretch);
      data[to + 3] = Math.round(Math.min(1, a) * 65535);
    }
  }
  return { raster: { width, height, channels: 4, depth: 16, data, space: raster.space }, x, y };
}

/** Adds a row of pixels, code values times alpha and alpha, with a weight. */
function addRow(
  band: Float64Array,
  { data, channels }: Raster,
  start: number,
  weight: number,
  full: number,
): void {
  const by = weight / full;
  for (let at = 0, i = start; at < band.length; at += 4, i += channels) {
    const code = channels === 4 ? data[i + 3] : full;
    if (code === 0) continue;
    const w = code * by;
    band[at] += w * data[i];
    band[at + 1] += w * data[i + 1];
    band[at + 2] += w * data[i + 2];
    band[at + 3] += w;
  }
}

interface Part {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
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

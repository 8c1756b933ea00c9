import type { ColourSpace } from '../colour/space.ts';
import type { Raster } from '../views/raster.ts';
import { SEPARABLE } from './blend.ts';
import { isLocal, type Meeting, meeting } from './meet.ts';
import type { LayerNode, LayerStack, PaintedLayer } from './stack.ts';

/** A canvas that layers are put onto one after the other, so that no two of them need be in memory at once. */
export interface LayerCanvas {
  draw(layer: Omit<PaintedLayer, 'kind' | 'path' | 'name' | 'visible'>): void;
  /** From here on layers are put together on their own, until `close`. */
  open(): void;
  close(meeting: Meeting): void;
  /** What was put together, rounded. */
  raster(depth: 8 | 16, space: ColourSpace): Raster;
}

/** Bytes that sheets may take: groups inside groups need one each, if something lies below each. Our default. */
const MOST_BYTES = 6 * 2 ** 30;

/**
 * An empty, transparent canvas. A sheet is made when something is first drawn on it: groups that hold nothing but
 * groups cost nothing.
 *
 * @throws RangeError from `draw` when there is not enough memory, as for groups that lie deep in each other
 */
export function layerCanvas(width: number, height: number): LayerCanvas {
  const size = { width, height };
  const sheets: (Float32Array | null)[] = [null];
  const top = (): Float32Array => {
    const sheet = sheets.at(-1) ?? newSheet();
    sheets[sheets.length - 1] = sheet;
    return sheet;
  };
  const newSheet = (): Float32Array => {
    const made = 1 + sheets.filter((sheet) => sheet !== null).length;
    if (made > 2 && made * 16 * width * height > MOST_BYTES)
      throw new RangeError(`its groups lie too deep in each other for ${width} × ${height} pixels`);
    try {
      return new Float32Array(4 * width * height);
    } catch {
      throw new RangeError(`${width} × ${height} pixels need more memory than there is`);
    }
  };
  return {
    draw(layer) {
      const { blend, operator } = layer;
      if (operator !== 'source-over') drawAny(top(), size, layer);
      else if (blend === 'normal') drawOver(top(), size, layer);
      else if (blend in SEPARABLE) drawMixed(top(), size, layer);
      else drawAny(top(), size, layer);
    },
    open() {
      sheets.push(null);
    },
    close(how) {
      const group = sheets.pop() ?? null;
      const below = sheets.at(-1) ?? null;
      if (group === null) {
        if (below !== null && !isLocal(how.operator)) meetSheet(below, null, how);
        return;
      }
      // What lies on nothing may stay on its own sheet.
      if (below === null) meetNothing(group, how);
      else meetSheet(below, group, how);
      sheets[sheets.length - 1] = below ?? group;
    },
    raster(depth, space) {
      const full = 2 ** depth - 1;
      const sheet = sheets[0];
      const length = 4 * width * height;
      const data = depth === 8 ? new Uint8Array(length) : new Uint16Array(length);
      // Stored as a whole number, the fraction falls off.
      if (sheet) for (let i = 0; i < length; i++) data[i] = sheet[i] * full + 0.5;
      return { width, height, channels: 4, depth, data, space };
    },
  };
}

/** A group, null for an empty one, meets what lies below it. */
function meetSheet(below: Float32Array, group: Float32Array | null, how: Meeting): void {
  const meet = meeting(how);
  const local = isLocal(how.operator);
  const pixel = new Float64Array(4);
  for (let at = 0; at < below.length; at += 4) {
    const a = group === null ? 0 : group[at + 3];
    if (local && a === 0) continue;
    for (let c = 0; c < 4; c++) pixel[c] = below[at + c];
    if (group === null) meet(pixel, 0, 0, 0, 0, 0);
    else meet(pixel, 0, group[at], group[at + 1], group[at + 2], a);
    for (let c = 0; c < 4; c++) below[at + c] = pixel[c];
  }
}

/** A group meets an empty canvas, in place. */
function meetNothing(group: Float32Array, how: Meeting): void {
  const meet = meeting(how);
  const pixel = new Float64Array(4);
  for (let at = 0; at < group.length; at += 4) {
    if (group[at + 3] === 0) continue;
    pixel.fill(0);
    meet(pixel, 0, group[at], group[at + 1], group[at + 2], group[at + 3]);
    for (let c = 0; c < 4; c++) group[at + c] = pixel[c];
  }
}

type Drawn = Omit<PaintedLayer, 'kind' | 'path' | 'name' | 'visible'>;
type Size = { readonly width: number; readonly height: number };

/** The part of the canvas that a layer lies on. */
function insideOf({ raster, x, y }: Drawn, { width, height }: Size) {
  return {
    x0: Math.max(0, x),
    x1: Math.min(width, x + raster.width),
    y0: Math.max(0, y),
    y1: Math.min(height, y + raster.height),
  };
}

/** The arithmetic of `meeting` for normal layers, most layers of most pictures, without a call for each pixel. */
function drawOver(sheet: Float32Array, size: Size, layer: Drawn): void {
  const { raster, x, y, opacity } = layer;
  const { x0, x1, y0, y1 } = insideOf(layer, size);
  const { data, channels } = raster;
  const full = 2 ** raster.depth - 1;
  const unit = 1 / full;
  for (let v = y0; v < y1; v++) {
    let i = channels * ((v - y) * raster.width + x0 - x);
    let at = 4 * (v * size.width + x0);
    for (let u = x0; u < x1; u++, i += channels, at += 4) {
      const code = channels === 4 ? data[i + 3] : full;
      if (code === 0) continue;
      const as = code * unit * opacity;
      const r = data[i] * unit;
      const g = data[i + 1] * unit;
      const b = data[i + 2] * unit;
      const ab = sheet[at + 3];
      if (as === 1 || ab === 0) {
        sheet[at] = r;
        sheet[at + 1] = g;
        sheet[at + 2] = b;
        sheet[at + 3] = as;
        continue;
      }
      const fb = ab * (1 - as);
      const ao = ab === 1 ? 1 : as + fb;
      const f = ab === 1 ? as : as / ao;
      sheet[at] += f * (r - sheet[at]);
      sheet[at + 1] += f * (g - sheet[at + 1]);
      sheet[at + 2] += f * (b - sheet[at + 2]);
      sheet[at + 3] = ao;
    }
  }
}

/** The arithmetic of `meeting` for blend modes that go channel by channel. */
function drawMixed(sheet: Float32Array, size: Size, layer: Drawn): void {
  const { raster, x, y, opacity } = layer;
  const { x0, x1, y0, y1 } = insideOf(layer, size);
  const { data, channels } = raster;
  const blend = SEPARABLE[layer.blend as keyof typeof SEPARABLE];
  const full = 2 ** raster.depth - 1;
  const unit = 1 / full;
  for (let v = y0; v < y1; v++) {
    let i = channels * ((v - y) * raster.width + x0 - x);
    let at = 4 * (v * size.width + x0);
    for (let u = x0; u < x1; u++, i += channels, at += 4) {
      const code = channels === 4 ? data[i + 3] : full;
      if (code === 0) continue;
      const as = code * unit * opacity;
      if (as === 0) continue;
      const ab = sheet[at + 3];
      const fb = ab * (1 - as);
      const ao = as + fb;
      for (let c = 0; c < 3; c++) {
        const s = data[i + c] * unit;
        const below = sheet[at + c];
        const seen = s + ab * (blend(below, s) - s);
        sheet[at + c] = Math.min(1, Math.max(0, (as * seen + fb * below) / ao));
      }
      sheet[at + 3] = ao;
    }
  }
}

/** Any meeting, pixel by pixel. */
function drawAny(sheet: Float32Array, size: Size, layer: Drawn): void {
  const { raster, x, y, ...how } = layer;
  const meet = meeting(how);
  const everywhere = !isLocal(how.operator);
  const { x0, x1, y0, y1 } = everywhere
    ? { x0: 0, x1: size.width, y0: 0, y1: size.height }
    : insideOf(layer, size);
  const full = 2 ** raster.depth - 1;
  const { data, channels } = raster;
  const pixel = new Float64Array(4);
  for (let v = y0; v < y1; v++) {
    const inside = v >= y && v < y + raster.height;
    for (let u = x0; u < x1; u++) {
      const at = 4 * (v * size.width + u);
      const there = inside && u >= x && u < x + raster.width;
      const i = channels * ((v - y) * raster.width + u - x);
      const a = there ? (channels === 4 ? data[i + 3] / full : 1) : 0;
      if (a === 0 && !everywhere) continue;
      for (let c = 0; c < 4; c++) pixel[c] = sheet[at + c];
      if (a === 0) meet(pixel, 0, 0, 0, 0, 0);
      else meet(pixel, 0, data[i] / full, data[i + 1] / full, data[i + 2] / full, a);
      for (let c = 0; c < 4; c++) sheet[at + c] = pixel[c];
    }
  }
}

/** All visible layers of a picture put together, with alpha. */
export function compositeStack(
  { width, height, nodes }: LayerStack,
  depth: 8 | 16,
  space: ColourSpace,
): Raster {
  const canvas = layerCanvas(width, height);
  putNodes(canvas, nodes);
  return canvas.raster(depth, space);
}

function putNodes(canvas: LayerCanvas, nodes: readonly LayerNode[]): void {
  for (const node of nodes) {
    if (!node.visible) continue;
    if (node.kind === 'layer') canvas.draw(node);
    else if (!node.isolated) putNodes(canvas, node.children);
    else {
      canvas.open();
      putNodes(canvas, node.children);
      canvas.close(node);
    }
  }
}

import type { ColourSpace } from '../colour/space.ts';
import type { Raster } from '../views/raster.ts';
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

/** An empty, transparent canvas. */
export function layerCanvas(width: number, height: number): LayerCanvas {
  const sheets = [new Float32Array(4 * width * height)];
  const pixel = new Float64Array(4);
  return {
    draw({ raster, x, y, ...how }) {
      const sheet = sheets.at(-1)!;
      const meet = meeting(how);
      const full = 2 ** raster.depth - 1;
      const everywhere = !isLocal(how.operator);
      const x0 = everywhere ? 0 : Math.max(0, x);
      const x1 = everywhere ? width : Math.min(width, x + raster.width);
      const y0 = everywhere ? 0 : Math.max(0, y);
      const y1 = everywhere ? height : Math.min(height, y + raster.height);
      const { data, channels } = raster;
      for (let v = y0; v < y1; v++) {
        const inside = v >= y && v < y + raster.height;
        for (let u = x0; u < x1; u++) {
          const at = 4 * (v * width + u);
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
    },
    open() {
      sheets.push(new Float32Array(4 * width * height));
    },
    close(how) {
      const top = sheets.pop()!;
      const sheet = sheets.at(-1)!;
      const meet = meeting(how);
      const local = isLocal(how.operator);
      for (let at = 0; at < sheet.length; at += 4) {
        if (local && top[at + 3] === 0) continue;
        for (let c = 0; c < 4; c++) pixel[c] = sheet[at + c];
        meet(pixel, 0, top[at], top[at + 1], top[at + 2], top[at + 3]);
        for (let c = 0; c < 4; c++) sheet[at + c] = pixel[c];
      }
    },
    raster(depth, space) {
      const full = 2 ** depth - 1;
      const sheet = sheets[0];
      const data = depth === 8 ? new Uint8Array(sheet.length) : new Uint16Array(sheet.length);
      for (let i = 0; i < data.length; i++) data[i] = Math.round(sheet[i] * full);
      return { width, height, channels: 4, depth, data, space };
    },
  };
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

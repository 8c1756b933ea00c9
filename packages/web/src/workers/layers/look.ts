import {
  type ColourSpace,
  compositeStack,
  type LayerNode,
  type LayerStack,
  type PaintedLayer,
  type Raster,
  type View,
} from '@halflight/engine';
import type { ScreenSpace, SeenMap } from '../../picture/desk.ts';
import { paintView, paintWindow } from '../picture/paint.ts';
import type { Difference } from './desk.ts';

/** A code value of 8 bits, in 16. */
const CODE = 257;

/** Puts layers together for a look, again and again: what lies below the first change is kept as one picture. */
export interface Looker {
  composite(nodes: readonly LayerNode[]): Raster;
}

export function openLooker({ width, height }: LayerStack, space: ColourSpace): Looker {
  let last: readonly LayerNode[] = [];
  let kept: { readonly nodes: readonly LayerNode[]; readonly layer: PaintedLayer } | null = null;
  const put = (nodes: readonly LayerNode[]): Raster => compositeStack({ width, height, nodes }, 16, space);
  const startsWith = (nodes: readonly LayerNode[], first: readonly LayerNode[]): boolean =>
    first.every((node, i) => nodes[i] === node);
  return {
    composite(nodes) {
      let same = 0;
      while (same < nodes.length && nodes[same] === last[same]) same++;
      last = nodes;
      if (!kept || !startsWith(nodes, kept.nodes) || kept.nodes.length < same) {
        const below = nodes.slice(0, same);
        kept = same > 0 ? { nodes: below, layer: asLayer('below', put(below)) } : null;
      }
      return put(kept ? [kept.layer, ...nodes.slice(kept.nodes.length)] : nodes);
    },
  };
}

/** A picture of the whole canvas as a normal layer. */
function asLayer(path: string, raster: Raster): PaintedLayer {
  return {
    kind: 'layer',
    path,
    name: path,
    visible: true,
    blend: 'normal',
    operator: 'source-over',
    opacity: 1,
    x: 0,
    y: 0,
    raster,
  };
}

/** How a picture differs from another of its size: colour counts as far as it is seen. */
export function differenceOf(a: Raster, b: Raster): Difference {
  const { width, height } = a;
  const data = new Uint8Array(width * height);
  let [most, count] = [0, 0];
  const [fa, fb] = [(255 * CODE) / (2 ** a.depth - 1), (255 * CODE) / (2 ** b.depth - 1)];
  for (let p = 0; p < data.length; p++) {
    const [i, j] = [a.channels * p, b.channels * p];
    const alpha = a.channels === 4 ? fa * a.data[i + 3] : 255 * CODE;
    const other = b.channels === 4 ? fb * b.data[j + 3] : 255 * CODE;
    const cover = Math.min(alpha, other) / (255 * CODE);
    let far = Math.abs(alpha - other);
    for (let c = 0; c < 3; c++)
      far = Math.max(far, cover * Math.abs(fa * a.data[i + c] - fb * b.data[j + c]));
    most = Math.max(most, far);
    if (far <= CODE + 0.5) continue;
    count++;
    // From two code values on a place is shown; from sixteen on it stands as painted.
    data[p] = 255 * Math.min(1, 0.35 + (0.65 * far) / (16 * CODE));
  }
  return { most: most / CODE, share: count / data.length, map: { width, height, data } };
}

/** A small view for the screen. */
export function bitmapOfView(view: View, screen: ScreenSpace): Promise<ImageBitmap> {
  return createImageBitmap(
    new ImageData(paintView(view, screen), view.width, view.height, { colorSpace: screen }),
  );
}

/** A picture for the screen. */
export async function bitmapOf(
  raster: Raster,
  screen: ScreenSpace,
  longSide = Infinity,
): Promise<ImageBitmap> {
  const { width, height } = raster;
  const scale = Math.min(1, longSide / Math.max(width, height));
  const [outWidth, outHeight] = [width, height].map((side) => Math.max(1, Math.round(side * scale)));
  const pixels = paintWindow(raster, { x: 0, y: 0, width, height, outWidth, outHeight }, screen);
  return createImageBitmap(new ImageData(pixels, outWidth, outHeight, { colorSpace: screen }));
}

/** CIEDE2000 place by place in bytes: as painted where the layer counts most, faded where it is not missed. */
export function worthMap({
  width,
  height,
  data: values,
}: {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}): SeenMap | null {
  const most = values.reduce((a, b) => Math.max(a, b), 0);
  if (most < 0.05) return null;
  const full = Math.min(6, Math.max(0.5, 0.6 * most));
  return { width, height, data: Uint8Array.from(values, (value) => 255 * Math.min(1, value / full)) };
}

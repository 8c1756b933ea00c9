import type { LayerCanvas, Raster } from '@halflight/engine';
import type { OpenRaster } from '../openraster/open.ts';
import { pngSize } from '../openraster/size.ts';
import type { StoredLayer, StoredLayerNode } from '../openraster/stack.ts';
import { layeredTrouble } from '../openraster/trouble.ts';
import type { Codec, Decoded } from '../types.ts';

/** What goes for every reading of a layered picture. */
export interface LayersHow {
  readonly codec: Codec;
  /** Layers above this are refused. */
  readonly limitMegapixels: number;
  readonly signal?: AbortSignal | undefined;
}

/** Decodes a layer at full size. */
export type Painter = (layer: StoredLayer) => Promise<Raster>;

/** The painter of a layered file. It rejects with the signal's reason when aborted. */
export function painterOf(file: OpenRaster, how: LayersHow): Painter {
  return async (layer) => (await decodeLayer(file, layer, how)).raster;
}

/** A layer may be so many times as large as the canvas, as it may lie partly outside. Our default. */
const MOST_TIMES = 16;
/** Pixels that a layer may always have. Our default. */
const ALWAYS = 16e6;

/**
 * Decodes a layer; one that is far larger than the canvas is refused before its pixels are read.
 *
 * @throws FileTrouble when it can't be read; the signal's reason when aborted
 */
export async function decodeLayer(
  file: OpenRaster,
  layer: StoredLayer,
  { codec, limitMegapixels, signal }: LayersHow,
): Promise<Decoded> {
  signal?.throwIfAborted();
  const bytes = await file.layer(layer);
  const size = pngSize(bytes);
  if (size && size.width * size.height > Math.max(ALWAYS, MOST_TIMES * file.width * file.height))
    throw layeredTrouble.hostile(
      file.name,
      `the layer “${layer.path}” is ${size.width} × ${size.height} pixels large, on a canvas of ${file.width} × ${file.height}`,
    );
  return codec.decode(bytes, {
    name: `${file.name}: ${layer.path}.png`,
    limitMegapixels,
    ...(signal ? { signal } : {}),
  });
}

/** Puts stored layers onto a canvas, the visible ones. */
export async function paint(
  canvas: LayerCanvas,
  nodes: readonly StoredLayerNode[],
  painter: Painter,
): Promise<void> {
  for (const node of nodes) {
    if (!node.visible) continue;
    if (node.kind === 'layer') canvas.draw({ ...node, raster: await painter(node) });
    else {
      if (node.isolated) canvas.open();
      await paint(canvas, node.children, painter);
      if (node.isolated) canvas.close(node);
    }
  }
}

/** The layers in a list and its groups, lowest first, hidden ones too. */
export function layersIn(nodes: readonly StoredLayerNode[]): StoredLayer[] {
  return nodes.flatMap((node) => (node.kind === 'layer' ? [node] : layersIn(node.children)));
}

/** How many layers there are in a list and its groups, hidden ones too. */
export function countLayers(nodes: readonly StoredLayerNode[]): number {
  return layersIn(nodes).length;
}

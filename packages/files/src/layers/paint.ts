import type { LayerCanvas, Raster } from '@halflight/engine';
import type { OpenRaster } from '../openraster/open.ts';
import type { StoredLayer, StoredLayerNode } from '../openraster/stack.ts';
import type { Codec } from '../types.ts';

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
export function painterOf(file: OpenRaster, { codec, limitMegapixels, signal }: LayersHow): Painter {
  return async (layer) => {
    signal?.throwIfAborted();
    const bytes = await file.layer(layer);
    return (await codec.decode(bytes, { name: `${file.name}: ${layer.path}.png`, limitMegapixels })).raster;
  };
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

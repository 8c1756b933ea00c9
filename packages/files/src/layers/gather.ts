import {
  CLOSE_PIXELS,
  type ColourSpace,
  type LayerCanvas,
  type LayerNode,
  type LayerStack,
  layerCanvas,
  type PaintedLayer,
  type Raster,
  reduceLayer,
  weighingSize,
} from '@halflight/engine';
import { breathe } from '../breathe.ts';
import type { OpenRaster } from '../openraster/open.ts';
import type { StoredLayer, StoredLayerNode } from '../openraster/stack.ts';
import { layeredTrouble } from '../openraster/trouble.ts';
import { FileTrouble } from '../trouble.ts';
import type { Decoded } from '../types.ts';
import { countLayers, decodeLayer, type LayersHow, layersIn, paint, painterOf } from './paint.ts';

/** A layered picture, read once from its lowest layer up. */
export interface Gathered {
  /** At the size at which layers are weighed. */
  readonly stack: LayerStack;
  /** All visible layers put together at full size; they are read again for it unless it was made along. */
  composite(): Promise<Raster>;
  readonly depth: 8 | 16;
  readonly space: ColourSpace;
  /** The profile of its layers, as they carry it. */
  readonly profile: Uint8Array | null;
  /** What was read differently from how it was meant, in sentences. */
  readonly notes: readonly string[];
}

function draw(canvas: LayerCanvas, layer: PaintedLayer, name: string): void {
  try {
    canvas.draw(layer);
  } catch (error) {
    if (error instanceof RangeError) throw layeredTrouble.stack(name, error.message, error);
    throw error;
  }
}

export interface GatherHow extends LayersHow {
  /**
   * Whether all layers are put together at full size while they are read: that costs as much as reading them. Unless
   * told, where the file holds a picture of all of them to be compared with.
   */
  readonly along?: boolean;
}

/**
 * Reads all layers, one after the other: small copies, one full canvas and at most two layers are in memory.
 *
 * @param onLayer after each layer, hidden ones too, with its small copy
 * @throws FileTrouble when a layer can't be read or there is none; the signal's reason when aborted
 */
export async function gather(
  file: OpenRaster,
  how: GatherHow,
  onLayer: (layer: PaintedLayer) => void = () => {},
): Promise<Gathered> {
  if (countLayers(file.nodes) === 0)
    throw new FileTrouble('format', `“${file.name}” holds no layer.`, 'Choose a file with painted layers.');
  const along = how.along ?? (await file.merged()) !== null;
  const canvas = layerCanvas(file.width, file.height);
  const small = weighingSize(file.width, file.height, CLOSE_PIXELS);
  const spaces = new Map<string, { space: ColourSpace; profile: Uint8Array | null }>();
  let depth: 8 | 16 = 8;
  const all = layersIn(file.nodes);
  const decode = (layer: StoredLayer): Promise<Decoded> => decodeLayer(file, layer, how);
  // While one layer is put on the canvas, the library already reads the next.
  let ahead: Promise<Decoded> | null = null;
  let count = 0;
  const next = async (): Promise<Decoded> => {
    const now = ahead ?? decode(all[count]);
    ahead = null;
    const decoded = await now;
    count++;
    if (count < all.length) {
      ahead = decode(all[count]);
      // It is waited for in its turn; until then its trouble is nobody's.
      ahead.catch(() => {});
    }
    return decoded;
  };
  const read = async (nodes: readonly StoredLayerNode[], seen: boolean): Promise<LayerNode[]> => {
    const out: LayerNode[] = [];
    for (const node of nodes) {
      const shown = along && seen && node.visible;
      if (node.kind === 'group') {
        if (shown && node.isolated) canvas.open();
        const children = await read(node.children, shown);
        if (shown && node.isolated) canvas.close(node);
        out.push({ ...node, children });
        continue;
      }
      await breathe();
      how.signal?.throwIfAborted();
      const { raster, profile } = await next();
      // Lets the next one start.
      await breathe();
      if (raster.depth === 16) depth = 16;
      if (!spaces.has(raster.space.name)) spaces.set(raster.space.name, { space: raster.space, profile });
      if (shown) draw(canvas, { ...node, raster }, file.name);
      const layer = { ...node, ...reduceLayer({ raster, x: node.x, y: node.y }, file, small) };
      out.push(layer);
      onLayer(layer);
    }
    return out;
  };
  const nodes = await read(file.nodes, true);
  const first = [...spaces.values()][0];
  const notes = [...file.notes];
  let together = along ? canvas.raster(depth, first.space) : null;
  const composite = async (): Promise<Raster> => {
    if (together) return together;
    const later = layerCanvas(file.width, file.height);
    await paint(later, file.nodes, painterOf(file, how)).catch((error: unknown) => {
      if (error instanceof RangeError) throw layeredTrouble.stack(file.name, error.message, error);
      throw error;
    });
    together = later.raster(depth, first.space);
    return together;
  };
  if (spaces.size > 1)
    notes.push(
      `Its layers are in several colour spaces (${[...spaces.keys()].join(', ')}); they were put together as they stand.`,
    );
  return {
    stack: { ...small, nodes },
    composite,
    depth,
    space: first.space,
    profile: first.profile,
    notes,
  };
}

import {
  CLOSE_PIXELS,
  type ColourSpace,
  type LayerCanvas,
  type LayerNode,
  type LayerStack,
  layerCanvas,
  type Raster,
  reduceLayer,
  weighingSize,
} from '@halflight/engine';
import type { Codec } from '@halflight/files';
import type { OpenRaster, StoredLayer, StoredLayerNode } from '@halflight/files/openraster';

/** A layered picture, read once from its lowest layer up. */
export interface Gathered {
  /** At the size at which layers are weighed. */
  readonly stack: LayerStack;
  /** All visible layers put together at full size. */
  readonly composite: Raster;
  readonly depth: 8 | 16;
  readonly space: ColourSpace;
  /** The profile of its layers, as they carry it. */
  readonly profile: Uint8Array | null;
  readonly notes: readonly string[];
}

/** Decodes a layer at full size. */
export type Painter = (layer: StoredLayer) => Promise<Raster>;

/** Reads all layers, one at a time: only the small copies and one full canvas stay in memory. */
export async function gather(
  file: OpenRaster,
  codec: Codec,
  limitMegapixels: number,
  onLayer: (name: string) => void = () => {},
): Promise<Gathered> {
  const canvas = layerCanvas(file.width, file.height);
  const small = weighingSize(file.width, file.height, CLOSE_PIXELS);
  const spaces = new Map<string, { space: ColourSpace; profile: Uint8Array | null }>();
  let depth: 8 | 16 = 8;
  const read = async (nodes: readonly StoredLayerNode[], seen: boolean): Promise<LayerNode[]> => {
    const out: LayerNode[] = [];
    for (const node of nodes) {
      const shown = seen && node.visible;
      if (node.kind === 'group') {
        if (shown && node.isolated) canvas.open();
        const children = await read(node.children, shown);
        if (shown && node.isolated) canvas.close(node);
        out.push({ ...node, children });
        continue;
      }
      const bytes = await file.layer(node);
      const { raster, profile } = await codec.decode(bytes, {
        name: `${file.name}: ${node.path}.png`,
        limitMegapixels,
      });
      if (raster.depth === 16) depth = 16;
      if (!spaces.has(raster.space.name)) spaces.set(raster.space.name, { space: raster.space, profile });
      if (shown) canvas.draw({ ...node, raster });
      out.push({ ...node, ...reduceLayer({ raster, x: node.x, y: node.y }, file, small) });
      onLayer(node.name);
    }
    return out;
  };
  const nodes = await read(file.nodes, true);
  const first = [...spaces.values()][0];
  if (!first) throw new RangeError('it holds no layer');
  const notes = [...file.notes];
  if (spaces.size > 1)
    notes.push(
      `Its layers are in several colour spaces (${[...spaces.keys()].join(', ')}); they were put together as they stand.`,
    );
  return {
    stack: { ...small, nodes },
    composite: canvas.raster(depth, first.space),
    depth,
    space: first.space,
    profile: first.profile,
    notes,
  };
}

/** Puts stored layers onto a canvas. */
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

/** Largest difference of two pictures of one size, in code values of the first; colour counts as far as it is seen. */
export function largestDifference(a: Raster, b: Raster): number {
  let most = 0;
  for (let p = 0; p < a.width * a.height; p++) most = Math.max(most, differenceAt(a, b, p));
  return most;
}

/** Share of the places that differ by more than `allowed` code values, and the rectangle that holds them all. */
export function whereDifferent(
  a: Raster,
  b: Raster,
  allowed: number,
): { share: number; left: number; top: number; right: number; bottom: number } {
  let [count, left, top, right, bottom] = [0, a.width, a.height, 0, 0];
  for (let y = 0; y < a.height; y++)
    for (let x = 0; x < a.width; x++) {
      if (differenceAt(a, b, y * a.width + x) <= allowed) continue;
      count++;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = y;
    }
  return { share: count / (a.width * a.height), left, top, right, bottom };
}

function differenceAt(a: Raster, b: Raster, p: number): number {
  const [fa, fb] = [2 ** a.depth - 1, 2 ** b.depth - 1];
  const [i, j] = [a.channels * p, b.channels * p];
  const alpha = a.channels === 4 ? a.data[i + 3] : fa;
  const other = b.channels === 4 ? (b.data[j + 3] * fa) / fb : fa;
  let most = Math.abs(alpha - other);
  const shown = Math.min(alpha, other) / fa;
  for (let c = 0; c < 3; c++)
    most = Math.max(most, shown * Math.abs(a.data[i + c] - (b.data[j + c] * fa) / fb));
  return most;
}

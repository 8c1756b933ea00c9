import {
  doesSentence,
  type LayerDoes,
  type LayerNode,
  type LayerReading,
  type LayerStack,
  type LayersReading,
  type PaintedLayer,
  type Raster,
} from '@halflight/engine';
import type { OpenRaster, StoredLayerNode } from '@halflight/files/openraster';
import type { LayerSource, ListedLayer, ListedPicture, SeenLayer, SeenLayers } from './desk.ts';
import { worthMap } from './look.ts';

/** The layers of a file as the page lists them before any is read. */
export function listed({ name, width, height, nodes }: OpenRaster): ListedPicture {
  const list = (node: StoredLayerNode): ListedLayer => ({
    path: node.path,
    name: node.name,
    group: node.kind === 'group',
    visible: node.visible,
    mode: node.operator === 'source-over' ? (node.blend === 'normal' ? '' : node.blend) : node.operator,
    opacity: node.opacity,
    children: node.kind === 'group' ? node.children.map(list) : [],
  });
  return { name, width, height, layers: nodes.map(list) };
}

/** What the layers are worth, as it travels to the page. */
export function seenOf(reading: LayersReading, does: ReadonlyMap<string, readonly LayerDoes[]>): SeenLayers {
  const layers = reading.layers.map(
    ({ path, worth, areaShare, redundant, why, kind, mergeableWith }): SeenLayer => ({
      path,
      mean: worth.mean,
      p95: worth.p95,
      areaShare,
      redundant,
      why,
      kind,
      mergeableWith,
      does: doesSentence(does.get(path) ?? []),
      map: worthMap(worth.map),
    }),
  );
  const map = { width: 1, height: 1, data: new Float32Array(1) };
  const plain = reading.layers.map((layer) => ({
    ...layer,
    worth: { ...layer.worth, map },
    without: null,
  }));
  const { options, merges } = reading;
  return { layers, options, merges, reading: { layers: plain, options, merges } };
}

/** What was read first, with the numbers of the layers that are left: what belongs together stays as it was found. */
export function withNumbers(before: LayersReading, now: LayersReading): LayersReading {
  const numbers = new Map(now.layers.map((one) => [one.path, one]));
  const layers = before.layers.map((one): LayerReading => {
    const next = numbers.get(one.path);
    return next ? { ...next, visible: one.visible } : { ...one, without: null };
  });
  return { ...before, ...(now.whole && { whole: now.whole }), layers };
}

/** Pictures together are called as the picture of them all, or as the lowest. */
export function nameOfPictures({ flat: all, pictures }: Extract<LayerSource, { kind: 'pictures' }>): string {
  return (all?.name ?? pictures[0]?.name ?? 'Layers').replace(/\.[A-Za-z0-9]{1,5}$/, '');
}

/** The painted layers of a tree, the lowest first. */
export function layersOf(nodes: readonly LayerNode[]): PaintedLayer[] {
  return nodes.flatMap((node) => (node.kind === 'layer' ? [node] : layersOf(node.children)));
}

/** A painted part back on its canvas. */
export function onCanvas(
  { raster, x, y }: Pick<PaintedLayer, 'raster' | 'x' | 'y'>,
  { width, height }: LayerStack,
): Raster {
  if (raster.width === width && raster.height === height) return raster;
  const { channels } = raster;
  const data = raster.data.slice(0, 0);
  const whole = new (data.constructor as Uint16ArrayConstructor)(channels * width * height);
  for (let v = 0; v < raster.height; v++)
    whole.set(
      raster.data.subarray(channels * v * raster.width, channels * (v + 1) * raster.width),
      channels * ((y + v) * width + x),
    );
  return { ...raster, width, height, data: whole };
}

import { type LayerSetting, turnHues } from '@halflight/engine';
import type { OpenRaster } from '../openraster/open.ts';
import type { StoredLayer, StoredLayerNode } from '../openraster/stack.ts';
import { FileTrouble } from '../trouble.ts';
import { png } from './flatten.ts';
import type { LayersHow } from './paint.ts';

/**
 * The layered picture with one layer of a set chosen: that one is shown, the others go or are hidden. The file it was
 * opened from stays as it is; `gather` reads the result like any other.
 *
 * @param sets layers of which one is to be chosen, by path (`options` of the reading)
 * @throws FileTrouble when the path is in none of them
 */
export function choose(
  file: OpenRaster,
  sets: readonly (readonly string[])[],
  path: string,
  others: 'drop' | 'hide' = 'drop',
): OpenRaster {
  const set = sets.find((paths) => paths.includes(path));
  if (!set)
    throw new FileTrouble(
      'option',
      `“${path}” is none of the layers of “${file.name}” between which to choose.`,
      sets.length === 0
        ? 'There is no choice left open.'
        : `Choose from: ${sets.map((paths) => paths.map((one) => `“${one}”`).join(' or ')).join('; ')}.`,
    );
  const chosen = (nodes: readonly StoredLayerNode[]): StoredLayerNode[] =>
    nodes.flatMap((node) => {
      if (set.includes(node.path)) {
        if (node.path !== path && others === 'drop') return [];
        return [shown(node, node.path === path)];
      }
      return node.kind === 'group' ? [{ ...node, children: chosen(node.children) }] : [node];
    });
  return { ...file, nodes: chosen(file.nodes) };
}

function shown<N extends StoredLayerNode>(node: N, visible: boolean): N {
  const attributes = { ...node.attributes, visibility: visible ? 'visible' : 'hidden' };
  return { ...node, visible, attributes };
}

/**
 * The layered picture with the hues of one layer or group turned and its strength set, at full size; it is shown.
 * Pixels are turned when they are asked for.
 *
 * @param setting a cell of `layerSweep`
 * @throws FileTrouble when there is no layer of that path
 */
export function setLayer(
  file: OpenRaster,
  path: string,
  { turn, opacity }: LayerSetting,
  { codec, limitMegapixels, signal }: LayersHow,
): OpenRaster {
  let found = false;
  const set = (nodes: readonly StoredLayerNode[]): StoredLayerNode[] =>
    nodes.map((node) => {
      if (node.path !== path) return node.kind === 'group' ? { ...node, children: set(node.children) } : node;
      found = true;
      const one = shown({ ...node, opacity }, true);
      const attributes = { ...one.attributes, opacity: String(opacity) };
      return one.kind === 'group'
        ? { ...one, attributes, isolated: one.isolated || opacity < 1 }
        : { ...one, attributes };
    });
  const nodes = set(file.nodes);
  if (!found)
    throw new FileTrouble('option', `“${file.name}” has no layer “${path}”.`, 'Choose one of its layers.');
  const turned = new Map<string, Promise<Uint8Array<ArrayBuffer>>>();
  const turnedLayer = async (layer: StoredLayer): Promise<Uint8Array<ArrayBuffer>> => {
    signal?.throwIfAborted();
    const { raster, profile } = await codec.decode(await file.layer(layer), {
      name: `${file.name}: ${layer.path}.png`,
      limitMegapixels,
    });
    return png(codec, turnHues(raster, turn), { profile });
  };
  return {
    ...file,
    nodes,
    layer(layer) {
      const inside = layer.path === path || layer.path.startsWith(`${path}/`);
      if (!inside || turn === 0) return file.layer(layer);
      // Layers may share their pixels; each of the set ones is turned once.
      const bytes = turned.get(layer.path) ?? turnedLayer(layer);
      turned.set(layer.path, bytes);
      return bytes;
    },
    // What the painting program saved is the picture before.
    merged: async () => null,
  };
}

import { type LayerNode, type LayersReading, type Raster, turnHues } from '@halflight/engine';
import { choose, type LayersHow, setLayer } from '@halflight/files/layers';
import type { OpenRaster } from '@halflight/files/openraster';
import { type Choices, goneOf } from '../../document/layers.ts';

/**
 * The layers after what was decided: some are gone, of each set one is left visible, settled ones have their hue and
 * strength. A node that nothing was decided about stays the same object.
 *
 * @param turned paths whose visibility is turned about, only for a look
 */
export function decidedNodes(
  nodes: readonly LayerNode[],
  choices: Choices,
  turned: readonly string[] = [],
): LayerNode[] {
  const gone = goneOf(choices);
  const shown = shownOf(choices);
  const settled = new Map(choices.settled.map((one) => [one.path, one]));
  const walk = (list: readonly LayerNode[], turn: number): LayerNode[] =>
    list.flatMap((node): LayerNode[] => {
      if (gone.has(node.path)) return [];
      const own = settled.get(node.path);
      const decided = shown.get(node.path) ?? node.visible;
      const visible = turned.includes(node.path) ? !decided : decided;
      const opacity = own?.opacity ?? node.opacity;
      const turns = turn + (own?.turn ?? 0);
      const same = visible === node.visible && opacity === node.opacity;
      if (node.kind === 'layer') {
        const raster = turnedRaster(node.raster, turns);
        return [same && raster === node.raster ? node : { ...node, visible, opacity, raster }];
      }
      const children = walk(node.children, turns);
      if (
        same &&
        children.every((child, i) => child === node.children[i]) &&
        children.length === node.children.length
      )
        return [node];
      // A group that is thinned is put together on its own first.
      return [{ ...node, visible, opacity, children, isolated: node.isolated || opacity < 1 }];
    });
  return walk(nodes, 0);
}

/** Of layers of which one was chosen: which is visible. */
function shownOf({ chosen }: Choices): ReadonlyMap<string, boolean> {
  return new Map(chosen.flatMap(({ set, kept }) => set.map((path) => [path, path === kept] as const)));
}

/** The same for a file: it is read and written as it was decided. What was taken away is left to the thinning. */
export function decidedFile(file: OpenRaster, choices: Choices, how: LayersHow): OpenRaster {
  const gone = goneOf(choices);
  const shown = shownOf(choices);
  const one = choices.chosen.reduce(
    (now, { set, kept, others }) => (gone.has(kept) ? now : choose(now, [set], kept, others)),
    file,
  );
  return choices.settled
    .filter(({ path }) => !gone.has(path) && shown.get(path) !== false)
    .reduce((now, { path, ...setting }) => setLayer(now, path, setting, how), one);
}

/** Pixels that were turned last, so that the same look is not made twice. */
const made = new WeakMap<Raster, { readonly turn: number; readonly raster: Raster }>();

function turnedRaster(raster: Raster, turn: number): Raster {
  if (turn === 0) return raster;
  const known = made.get(raster);
  if (known?.turn === turn) return known.raster;
  const next = turnHues(raster, turn);
  made.set(raster, { turn, raster: next });
  return next;
}

/** What was read, of the layers that are left: a choice that was made is none any more. */
export function decidedReading(reading: LayersReading, choices: Choices): LayersReading {
  const gone = goneOf(choices);
  const shown = shownOf(choices);
  const left = (path: string): boolean =>
    ![...gone].some((other) => path === other || path.startsWith(`${other}/`));
  const lists = (all: readonly (readonly string[])[]): string[][] =>
    all.map((list) => list.filter(left)).filter((list) => list.length > 1);
  return {
    ...reading,
    layers: reading.layers
      .filter(({ path }) => left(path))
      .map((one) => ({ ...one, visible: shown.get(one.path) ?? one.visible })),
    options: lists(reading.options).filter((set) => !set.some((path) => shown.has(path))),
    merges: lists(reading.merges),
  };
}

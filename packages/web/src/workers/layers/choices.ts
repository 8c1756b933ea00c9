import { type LayersReading, type Raster, turnHues } from '@halflight/engine';
import { type Choices, goneOf } from '../../document/layers.ts';

/** What stored layers and layers in memory have in common. */
interface Node {
  readonly path: string;
  readonly visible: boolean;
  readonly opacity: number;
}

/** What some of them have. */
interface Parts<N> {
  readonly children?: readonly N[];
  readonly isolated?: boolean;
  readonly raster?: Raster;
  readonly attributes?: Readonly<Record<string, string>>;
}

/**
 * The layers after what was decided: some are gone, of each set one is left visible, settled ones have their hue and
 * strength. A node that nothing was decided about stays the same object. Layers in a file have no pixels here: their
 * hues are turned where those are read (`turnOf`).
 *
 * @param turned paths whose visibility is turned about, only for a look
 */
export function decidedNodes<N extends Node>(
  nodes: readonly N[],
  choices: Choices,
  turned: readonly string[] = [],
): N[] {
  const gone = goneOf(choices);
  const shown = new Map(
    choices.chosen.flatMap(({ set, kept }) => set.map((path) => [path, path === kept] as const)),
  );
  const settled = new Map(choices.settled.map((one) => [one.path, one]));
  const walk = (list: readonly N[], turn: number): N[] =>
    list.flatMap((node) => {
      if (gone.has(node.path)) return [];
      const parts = node as Parts<N>;
      const own = settled.get(node.path);
      const decided = shown.get(node.path) ?? node.visible;
      const visible = turned.includes(node.path) ? !decided : decided;
      const opacity = own?.opacity ?? node.opacity;
      const children = parts.children && walk(parts.children, turn + (own?.turn ?? 0));
      const raster = parts.raster && turnedRaster(parts.raster, turn + (own?.turn ?? 0));
      const same =
        visible === node.visible &&
        opacity === node.opacity &&
        raster === parts.raster &&
        (!children || sameList(children, parts.children ?? []));
      if (same) return [node];
      return [
        withAttributes({
          ...node,
          visible,
          opacity,
          ...(raster && { raster }),
          ...(children && { children, isolated: parts.isolated || opacity < 1 }),
        }),
      ];
    });
  return walk(nodes, 0);
}

/** Degrees by which the hues of a layer are turned, by itself and by the groups it is in. */
export function turnOf(path: string, { settled }: Choices): number {
  return settled
    .filter((one) => path === one.path || path.startsWith(`${one.path}/`))
    .reduce((sum, { turn }) => sum + turn, 0);
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

/** In a file both stand among the attributes as well. */
function withAttributes<N extends Node>(node: N): N {
  const { attributes } = node as Parts<N>;
  if (!attributes) return node;
  const { visibility: _, ...others } = attributes;
  return {
    ...node,
    attributes: {
      ...others,
      opacity: String(node.opacity),
      ...(node.visible ? {} : { visibility: 'hidden' }),
    },
  };
}

function sameList<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((item, i) => item === b[i]);
}

/** What was read, of the layers that are left: a choice that was made is none any more. */
export function decidedReading(reading: LayersReading, choices: Choices): LayersReading {
  const gone = goneOf(choices);
  const shown = new Map(
    choices.chosen.flatMap(({ set, kept }) => set.map((path) => [path, path === kept] as const)),
  );
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

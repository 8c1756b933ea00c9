import type { ColourSpace } from '../colour/space.ts';
import { compositeStack } from './canvas.ts';
import { isLocal, type Operator } from './meet.ts';
import { reduceLayer } from './reduce.ts';
import type { LayerNode, LayerStack, PaintedLayer } from './stack.ts';

/** What is done to a layered picture to have fewer layers. Paths are those of the reading. */
export interface Thinning {
  /** Layers and groups that go. */
  readonly dropped: readonly string[];
  /** Neighbours in one group that become one normal layer. */
  readonly merged: readonly (readonly string[])[];
  /** Everything visible from the bottom up to this layer or group becomes one; null: nothing. */
  readonly through: string | null;
}

/** What thinning needs to know of a layer or group. */
type Thinnable<N> = { readonly path: string; readonly name: string; readonly visible: boolean } & (
  | { readonly kind: 'layer' }
  | {
      readonly kind: 'group';
      readonly isolated: boolean;
      readonly operator: Operator;
      readonly children: readonly N[];
    }
);

/** A layer that stays as it is, a group with what is left in it, or several that become one. */
export type Thinned<N> =
  | { readonly kind: 'kept'; readonly node: N }
  | { readonly kind: 'group'; readonly node: N; readonly children: readonly Thinned<N>[] }
  | { readonly kind: 'one'; readonly name: string; readonly path: string; readonly members: readonly N[] };

/** The thinned tree of layers, of whatever kind they are: painted ones and ones in a file have one rule. */
export function thinTree<N extends Thinnable<N>>(nodes: readonly N[], thinning: Thinning): Thinned<N>[] {
  const dropped = new Set(thinning.dropped);
  const left = without(nodes, dropped);
  if (thinning.through === null) return runsOf(left, thinning.merged);
  const { below, above } = split(left, thinning.through);
  const members = below.filter(({ visible }) => visible);
  const rest = runsOf(above, thinning.merged);
  return members.length === 0
    ? rest
    : [{ kind: 'one', name: members[0].name, path: members[0].path, members }, ...rest];
}

/**
 * The next visible layer or group above what becomes one, at the bottom level: modes above may make more of its
 * rounding than is allowed, unless they become one with it. Null when there is none.
 */
export function throughNext<N extends Thinnable<N>>(
  nodes: readonly N[],
  { dropped, through }: Thinning,
): string | null {
  if (through === null) return null;
  const left = without(nodes, new Set(dropped));
  const { above } = split(left, through);
  const next = above.find(({ visible }) => visible);
  if (!next) return null;
  // A group that is divided there is taken as a whole.
  return next.path;
}

function without<N extends Thinnable<N>>(nodes: readonly N[], dropped: ReadonlySet<string>): N[] {
  return nodes.flatMap((node) => {
    if (dropped.has(node.path)) return [];
    if (node.kind === 'layer') return [node];
    const children = without(node.children, dropped);
    // An empty group may still clear what lies below it.
    const goes = children.length === 0 && node.children.length > 0 && isLocal(node.operator);
    return goes ? [] : [{ ...node, children }];
  });
}

/** What is drawn up to and including `through`, and what comes after it; a group that holds it is divided. */
function split<N extends Thinnable<N>>(
  nodes: readonly N[],
  through: string,
): { below: N[]; above: N[]; found: boolean } {
  for (const [i, node] of nodes.entries()) {
    const [below, above] = [nodes.slice(0, i), nodes.slice(i + 1)];
    if (node.path === through) return { below: [...below, node], above, found: true };
    if (node.kind === 'layer') continue;
    const inside = split(node.children, through);
    if (!inside.found) continue;
    return {
      below: [...below, { ...node, children: inside.below }],
      above: inside.above.length > 0 ? [{ ...node, children: inside.above }, ...above] : above,
      found: true,
    };
  }
  return { below: [], above: [...nodes], found: false };
}

function runsOf<N extends Thinnable<N>>(nodes: readonly N[], merged: Thinning['merged']): Thinned<N>[] {
  return nodes.flatMap((node): Thinned<N>[] => {
    const run = node.visible ? merged.find((paths) => paths.includes(node.path)) : undefined;
    if (run) {
      const members = nodes.filter(({ path, visible }) => visible && run.includes(path));
      if (members.length > 1)
        return node === members[0] ? [{ kind: 'one', name: node.name, path: node.path, members }] : [];
    }
    return node.kind === 'layer'
      ? [{ kind: 'kept', node }]
      : [{ kind: 'group', node, children: runsOf(node.children, merged) }];
  });
}

/** Layers that are left, hidden ones too. */
export function countThinned<N>(tree: readonly Thinned<N>[]): number {
  return tree.reduce((sum, one) => sum + (one.kind === 'group' ? countThinned(one.children) : 1), 0);
}

/** The thinned picture; what becomes one is rounded to `depth` bits, as in a file. */
export function thinStack(
  { width, height, nodes }: LayerStack,
  thinning: Thinning,
  depth: 8 | 16,
  space: ColourSpace,
): LayerStack {
  const size = { width, height };
  const made = (tree: readonly Thinned<LayerNode>[]): LayerNode[] =>
    tree.map((one): LayerNode => {
      if (one.kind === 'kept') return one.node;
      if (one.kind === 'group') return { ...one.node, children: made(one.children) } as LayerNode;
      return asOne(one.path, one.name, { ...size, nodes: one.members }, depth, space);
    });
  return { ...size, nodes: made(thinTree(nodes, thinning)) };
}

/** Layers put together as one normal layer. */
export function asOne(
  path: string,
  name: string,
  stack: LayerStack,
  depth: 8 | 16,
  space: ColourSpace,
): PaintedLayer {
  const raster = compositeStack(stack, depth, space);
  return {
    kind: 'layer',
    path,
    name,
    visible: true,
    blend: 'normal',
    operator: 'source-over',
    opacity: 1,
    ...reduceLayer({ raster, x: 0, y: 0 }, stack, stack),
  };
}

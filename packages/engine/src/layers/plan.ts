import type { ColourSpace } from '../colour/space.ts';
import type { Raster } from '../views/raster.ts';
import { compositeStack } from './canvas.ts';
import { largestDifference, placesSeen, wholeDifference } from './compare.ts';
import type { LayerReading, LayersReading } from './read.ts';
import { reduceStack } from './reduce.ts';
import type { LayerGroup, LayerNode, LayerStack } from './stack.ts';
import { countThinned, type Thinned, type Thinning, thinStack, thinTree, throughNext } from './thin.ts';
import { FEW, UNSEEN } from './weigh.ts';

/** From keeping all to one layer, each stage with fewer layers than the one before, or as many. */
export type StageName = 'all' | 'seen' | 'runs' | 'decided' | 'effects' | 'one';

/** The stages as sentences. */
export const STAGES: Readonly<Record<StageName, string>> = {
  all: 'Keep all',
  seen: 'Without what shows nothing',
  runs: 'Painting that lies together made one',
  decided: 'One kept of each choice',
  effects: 'One layer and the effects',
  one: 'One layer',
};

export interface FlattenStage extends Thinning {
  readonly name: StageName;
  /** Layers that are left, hidden ones too. */
  readonly layers: number;
  /** What is lost against keeping all. */
  readonly lost: {
    /** Largest difference of the picture in code values of its depth, on a small copy. */
    readonly codes: number;
    /** CIEDE2000 of the whole view. */
    readonly mean: number;
    readonly p95: number;
    /** Layers that were a choice and are gone. */
    readonly options: readonly string[];
    /** Effects that can no longer be turned up and down. */
    readonly effects: readonly string[];
  };
}

/** Pixels of the copy on which stages are compared. Our default: what is written is compared at full size. */
const COMPARED = 250_000;

/**
 * The ways to have fewer layers, each with what it loses. Nothing is reordered: an effect under paint becomes one with
 * it in the stage that keeps one layer and the effects.
 *
 * @param stack as it was read
 * @param depth bits of the layers that will be written
 */
export function* flattenPlan(
  stack: LayerStack,
  reading: LayersReading,
  depth: 8 | 16,
  space: ColourSpace,
): Generator<number, FlattenStage[]> {
  const small = reduceStack(stack, COMPARED);
  const before = compositeStack(small, depth, space);
  yield 0.1;
  const idle = yield* idleTogether(small, reading, space);
  const gone = reading.options.flatMap((set) => set.filter((path) => !visibleIn(reading, path)));
  const isOption = new Set(reading.options.flat());
  const decided = [...idle, ...gone];
  const painting = topPaint(
    stack.nodes,
    new Map(reading.layers.map((one) => [one.path, one])),
    new Set(idle),
  );
  const left = thinStack(stack, { dropped: decided, merged: [], through: null }, depth, space);
  const top = left.nodes.findLast(({ visible }) => visible)?.path ?? null;
  const runs = reading.merges.map((run) => run.filter((path) => !idle.includes(path)));
  const thinnings: Record<StageName, Thinning> = {
    all: { dropped: [], merged: [], through: null },
    seen: { dropped: idle, merged: [], through: null },
    runs: { dropped: idle, merged: apartAt(runs, isOption), through: null },
    decided: { dropped: decided, merged: runs.filter((run) => run.length > 1), through: null },
    effects: { dropped: decided, merged: [], through: painting },
    one: { dropped: decided, merged: [], through: top },
  };
  const stages: FlattenStage[] = [];
  for (const [name, planned] of Object.entries(thinnings) as [StageName, Thinning][]) {
    const { thinning, after } = holding(small, planned, depth, space);
    const apart = new Set(pathsKept(thinTree(stack.nodes, thinning)));
    stages.push({
      name,
      ...thinning,
      layers: countThinned(thinTree(stack.nodes, thinning)),
      lost: {
        codes: largestDifference(before, after),
        ...wholeDifference(before, after),
        options: gone.filter((path) => thinning.dropped.includes(path)),
        effects: reading.layers
          .filter((one) => one.kind === 'effect' && one.visible && !one.redundant && !one.group)
          .map(({ path }) => path)
          .filter((path) => !apart.has(path)),
      },
    });
    yield 0.4 + 0.1 * stages.length;
  }
  return stages;
}

/** The thinning with as much made one as keeps the picture within one code value, and that picture. */
function holding(
  small: LayerStack,
  planned: Thinning,
  depth: 8 | 16,
  space: ColourSpace,
): { thinning: Thinning; after: Raster } {
  const kept = thinStack(small, { ...planned, merged: [], through: null }, depth, space);
  const meant = compositeStack(kept, depth, space);
  for (let thinning = planned; ; ) {
    const after = compositeStack(thinStack(small, thinning, depth, space), depth, space);
    const through = throughNext(small.nodes, thinning);
    if (through === null || largestDifference(meant, after) <= 1) return { thinning, after };
    thinning = { ...thinning, through };
  }
}

/**
 * Layers that show nothing and can go together: each is weighed alone, and of two that hide each other only one can go.
 */
function* idleTogether(
  small: LayerStack,
  { layers }: LayersReading,
  space: ColourSpace,
): Generator<number, string[]> {
  const hidden = layers.filter(({ redundant, visible }) => redundant && !visible);
  const shown = layers
    .filter(({ redundant, visible }) => redundant && visible)
    .sort((a, b) => a.worth.mean - b.worth.mean);
  // At 8 bits rounding alone could be seen.
  const before = compositeStack(small, 16, space);
  const unseen = (list: readonly LayerReading[]): boolean => {
    const dropped = list.map(({ path }) => path);
    const left = thinStack(small, { dropped, merged: [], through: null }, 16, space);
    const after = compositeStack(left, 16, space);
    const covered = Math.min(1, Math.max(0, ...list.map(({ areaShare }) => areaShare)));
    return placesSeen(before, after, UNSEEN) <= FEW * covered * small.width * small.height;
  };
  let go: LayerReading[] = [];
  if (unseen(shown)) go = shown;
  else
    for (const [i, one] of shown.entries()) {
      if (unseen([...go, one])) go.push(one);
      yield 0.1 + (0.3 * (i + 1)) / shown.length;
    }
  const paths = new Set([...hidden, ...go].map(({ path }) => path));
  return layers.map(({ path }) => path).filter((path) => paths.has(path));
}

function visibleIn({ layers }: LayersReading, path: string): boolean {
  return layers.some((one) => one.path === path && one.visible);
}

/** Runs in the parts that lie between options: those stay to be chosen from. */
function apartAt(runs: readonly (readonly string[])[], options: ReadonlySet<string>): string[][] {
  return runs.flatMap((run) => {
    const parts: string[][] = [[]];
    for (const path of run) {
      if (options.has(path)) parts.push([]);
      else parts.at(-1)!.push(path);
    }
    return parts.filter((part) => part.length > 1);
  });
}

/** The highest layer or group that is painting; groups that are not put together on their own are looked into. */
function topPaint(
  nodes: readonly LayerNode[],
  readings: ReadonlyMap<string, LayerReading>,
  idle: ReadonlySet<string>,
): string | null {
  for (const node of [...nodes].reverse()) {
    if (!node.visible || idle.has(node.path)) continue;
    if (node.kind === 'group' && !node.isolated) {
      const inside = topPaint(node.children, readings, idle);
      if (inside !== null) return inside;
    } else if (readings.get(node.path)?.kind !== 'effect') return node.path;
  }
  return null;
}

function pathsKept(tree: readonly Thinned<LayerNode>[]): string[] {
  return tree.flatMap((one) => {
    if (one.kind === 'one') return [];
    if (one.kind === 'group') return [one.node.path, ...pathsKept(one.children)];
    return pathsIn(one.node);
  });
}

function pathsIn(node: LayerNode): string[] {
  return [node.path, ...((node as Partial<LayerGroup>).children ?? []).flatMap(pathsIn)];
}

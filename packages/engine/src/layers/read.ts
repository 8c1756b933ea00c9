import type { ColourSpace } from '../colour/space.ts';
import type { View } from '../views/view.ts';
import { kindOf, type PartKind } from './kind.ts';
import { MOST, mergeErrors, type Run } from './merge.ts';
import { findOptions } from './options.ts';
import { type Part, type Program, programOf } from './program.ts';
import { reduceStack } from './reduce.ts';
import type { LayerNode, LayerStack } from './stack.ts';
import { unseenParts } from './unseen.ts';
import { FEW, SURELY, type Weighed, type Worth, weighParts } from './weigh.ts';

/** Pixels of the size at which worth is measured; what may be redundant is looked at again up close. Our default. */
const WEIGHED_PIXELS = 375_000;

/** Why a layer shows nothing. */
export type IdleReason = 'hidden' | 'empty' | 'clear' | 'unseen';

/** The reasons in words, to follow a name and a colon. */
export const IDLE_WORDS: Readonly<Record<IdleReason, string>> = {
  hidden: 'hidden',
  empty: 'nothing is painted on it',
  clear: 'at an opacity of 0 %',
  unseen: 'covered, too faint, or of no effect in its mode',
};

/** What is known of one layer or group. */
export interface LayerReading {
  readonly path: string;
  readonly name: string;
  readonly visible: boolean;
  readonly group: boolean;
  readonly worth: Worth;
  readonly areaShare: number;
  /** Taking it away is not seen. Hidden ones that are an option are not called so: one of the set is to be chosen. */
  readonly redundant: boolean;
  /** Why it shows nothing; null for one that shows something or is an option. */
  readonly why: IdleReason | null;
  readonly kind: PartKind;
  /** Path of the next layer below with which it can become one without a change above one code value. */
  readonly mergeableWith: string | null;
  /** The picture without it, at most 160 pixels large; null where it is the same. */
  readonly without: View | null;
}

export interface LayersReading {
  /** Lowest first; a group before what is in it. */
  readonly layers: readonly LayerReading[];
  /** Paths of layers never seen together, of which one is to be chosen. */
  readonly options: readonly (readonly string[])[];
  /** Neighbours that become one layer, by paths; everything visible that is not an effect. */
  readonly merges: readonly (readonly string[])[];
  /** The picture as it is, as large as those without a layer; absent where only two flat pictures were compared. */
  readonly whole?: View;
}

/**
 * What each layer of a picture is worth, which can go, which can become one, and between which one is to choose.
 *
 * @param stack at the size it is weighed at (`reduceStack`)
 * @param depth bits in which merged layers will be written
 */
export function readLayers(stack: LayerStack, depth: 8 | 16, space: ColourSpace): LayersReading {
  const steps = layersReader(stack, depth, space);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** The same in small steps, of which each yields the share that is done. */
export function* layersReader(
  stack: LayerStack,
  depth: 8 | 16,
  space: ColourSpace,
): Generator<number, LayersReading> {
  const close = programOf(stack.nodes);
  const coarse = reduceStack(stack, WEIGHED_PIXELS);
  const program = programOf(coarse.nodes);
  // The same tree: parts have the same numbers in both.
  const { parts } = close;
  const { weighed, whole } = yield* part(weighParts(coarse, program, space), 0, 0.5);
  const redundant = yield* part(redundantParts(stack, close, weighed, coarse !== stack, space), 0.5, 0.7);
  const numberOf = new Map(parts.map(({ node }, i) => [node, i]));
  const longSide = Math.max(stack.width, stack.height);
  const backed = (node: LayerNode): number => weighed[numberOf.get(node) ?? -1]?.backed ?? 1;
  const kinds = new Map(allNodes(stack.nodes).map((node) => [node, kindOf(node, backed, longSide)]));

  const families = familiesOf(parts);
  const stays = (i: number): boolean => kinds.get(parts[i].node) === 'paint' && !redundant[i];
  const pairs = families.flatMap((family) => {
    const kept = family.filter((i) => !redundant[i]);
    return kept
      .slice(1)
      .flatMap((last, k) => (stays(kept[k]) && stays(last) ? [{ first: kept[k], last }] : []));
  });
  const candidates = families.flatMap((family) =>
    runsOf(family, (i) => redundant[i] || kinds.get(parts[i].node) === 'paint'),
  );
  // Both are measured on one way through the picture.
  const errors = yield* part(mergeErrors(coarse, program, [...pairs, ...candidates], depth), 0.7, 0.9);
  const partner = new Map(pairs.filter((_, k) => errors[k] <= MOST).map(({ first, last }) => [last, first]));
  const runs = yield* holdingRuns(candidates, errors.slice(pairs.length), families, (list) =>
    part(mergeErrors(coarse, program, list, depth), 0.9, 1),
  );

  const options = findOptions(stack);
  const open = new Set(allNodes(options.flat()));
  return {
    layers: allNodes(stack.nodes).map((node): LayerReading => {
      const i = numberOf.get(node);
      const found = i === undefined ? UNSEEN_PART : weighed[i];
      const below = i === undefined ? undefined : partner.get(i);
      const isIdle = (i === undefined || redundant[i]) && !open.has(node);
      const areaShare = paintedShare(node, stack, i !== undefined);
      return {
        path: node.path,
        name: node.name,
        visible: node.visible,
        group: node.kind === 'group',
        worth: found.worth,
        areaShare,
        redundant: isIdle,
        why: isIdle ? reasonOf(node, i !== undefined, areaShare) : null,
        kind: kinds.get(node)!,
        mergeableWith: below === undefined ? null : parts[below].node.path,
        without: found.without,
      };
    }),
    options: options.map((set) => set.map(({ path }) => path)),
    merges: runs.map((run) => inRun(families, run).map((i) => parts[i].node.path)),
    whole,
  };
}

function reasonOf({ opacity }: LayerNode, seen: boolean, areaShare: number): IdleReason {
  if (areaShare === 0) return 'empty';
  if (!seen) return 'hidden';
  return opacity === 0 ? 'clear' : 'unseen';
}

/** Work that is a part of the whole, from one share of it to another. */
function* part<T>(work: Generator<number, T>, from: number, to: number): Generator<number, T> {
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
    yield from + (to - from) * value;
  }
}

function allNodes(nodes: readonly LayerNode[]): LayerNode[] {
  return nodes.flatMap((node) => (node.kind === 'group' ? [node, ...allNodes(node.children)] : [node]));
}

/** The parts that lie in one group, from below. */
function familiesOf(parts: readonly Part[]): number[][] {
  const families = new Map<number, number[]>();
  parts.forEach(({ parent }, i) => {
    families.set(parent, [...(families.get(parent) ?? []), i]);
  });
  return [...families.values()];
}

/** The longest runs of more than one part that may be merged. */
function runsOf(family: readonly number[], may: (part: number) => boolean): Run[] {
  const runs: Run[] = [];
  let start = -1;
  for (let k = 0; k <= family.length; k++) {
    if (k < family.length && may(family[k])) {
      if (start < 0) start = k;
      continue;
    }
    if (start >= 0 && k - start > 1) runs.push({ first: family[start], last: family[k - 1] });
    start = -1;
  }
  return runs;
}

/** Runs that may be merged as they are; one that changes the picture is halved until none does. */
function* holdingRuns(
  candidates: readonly Run[],
  measured: readonly number[],
  families: readonly (readonly number[])[],
  measure: (runs: readonly Run[]) => Generator<number, number[]>,
): Generator<number, Run[]> {
  const good: Run[] = [];
  let errors = measured;
  for (let open = candidates; open.length > 0; errors = yield* measure(open)) {
    const next: Run[] = [];
    open.forEach((run, k) => {
      if (errors[k] <= MOST) {
        good.push(run);
        return;
      }
      const members = inRun(families, run);
      const middle = members.length >> 1;
      for (const half of [members.slice(0, middle), members.slice(middle)])
        if (half.length > 1) next.push({ first: half[0], last: half.at(-1)! });
    });
    open = next;
  }
  return good.sort((a, b) => a.first - b.first);
}

function inRun(families: readonly (readonly number[])[], { first, last }: Run): readonly number[] {
  const family = families.find((members) => members.includes(first))!;
  return family.filter((i) => i >= first && i <= last);
}

/**
 * Which parts show nothing even up close. What is seen at far more of its places at the coarser size is seen up close
 * as well, and is not looked at again: an average is not larger than what it is made of, and stands for a few places.
 */
function* redundantParts(
  stack: LayerStack,
  program: Program,
  weighed: readonly Weighed[],
  coarser: boolean,
  space: ColourSpace,
): Generator<number, boolean[]> {
  if (!coarser) return weighed.map(({ seenShare }) => seenShare <= FEW);
  const asked = weighed.flatMap(({ seenShare }, k) => (seenShare <= SURELY * FEW ? [k] : []));
  const unseen = yield* unseenParts(stack, program, asked, space);
  const redundant = weighed.map(() => false);
  asked.forEach((k, i) => {
    redundant[k] = unseen[i];
  });
  return redundant;
}

/** A node that nobody sees: hidden, or in a hidden group. */
const UNSEEN_PART = {
  worth: { mean: 0, p95: 0, map: { width: 1, height: 1, data: new Float32Array(1) } },
  without: null,
};

/** Share of the picture that a node's paint covers; of a group that is seen, the paint that is. */
function paintedShare(node: LayerNode, { width, height }: LayerStack, seen: boolean): number {
  const there = new Uint8Array(width * height);
  let count = 0;
  const mark = (one: LayerNode): void => {
    if (seen && !one.visible) return;
    if (one.kind === 'group') {
      one.children.forEach(mark);
      return;
    }
    const { raster, x, y } = one;
    const { data, channels } = raster;
    for (let v = Math.max(0, -y); v < Math.min(raster.height, height - y); v++)
      for (let u = Math.max(0, -x); u < Math.min(raster.width, width - x); u++) {
        if (channels === 4 && data[4 * (v * raster.width + u) + 3] === 0) continue;
        const at = (y + v) * width + x + u;
        count += 1 - there[at];
        there[at] = 1;
      }
  };
  mark(node);
  return count / there.length;
}

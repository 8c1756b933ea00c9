import {
  type FlattenStage,
  flattenPlan,
  type LayerDoes,
  type LayersReading,
  layersReader,
  whatLayersDo,
} from '@halflight/engine';
import { breathe } from '../breathe.ts';
import type { Gathered } from './gather.ts';

/** How long it works before messages are let through, in milliseconds. */
const TURN = 40;

type Small = Pick<Gathered, 'stack' | 'depth' | 'space'>;

/** How long work may go on. */
interface Turns {
  readonly signal?: AbortSignal | undefined;
  /** Share done, 0…1. */
  readonly onProgress?: (share: number) => void;
}

/**
 * What each layer of a gathered picture is worth (`readLayers`), in turns: others are let through in between.
 *
 * @throws the signal's reason when aborted
 */
export function weigh({ stack, depth, space }: Small, how: Turns = {}): Promise<LayersReading> {
  return inTurns(layersReader(stack, depth, space), how);
}

/** What hiding each layer does to the readings (`whatLayersDo`), in turns as `weigh`. */
export function weighDeeds(
  reading: LayersReading,
  how: Turns = {},
): Promise<Map<string, readonly LayerDoes[]>> {
  return inTurns(whatLayersDo(reading), how);
}

/** The ways to have fewer layers (`flattenPlan`), in turns as `weigh`. */
export function planStages(
  { stack, depth, space }: Small,
  reading: LayersReading,
  how: Turns = {},
): Promise<FlattenStage[]> {
  return inTurns(flattenPlan(stack, reading, depth, space), how);
}

async function inTurns<T>(steps: Generator<number, T>, how: Turns): Promise<T> {
  let turn = performance.now();
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    if (performance.now() - turn < TURN) continue;
    how.onProgress?.(value);
    await breathe();
    how.signal?.throwIfAborted();
    turn = performance.now();
  }
}

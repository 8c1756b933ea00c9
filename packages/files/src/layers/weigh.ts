import { type LayersReading, layersReader } from '@halflight/engine';
import { breathe } from '../breathe.ts';
import type { Gathered } from './gather.ts';

/** How long it works before messages are let through, in milliseconds. */
const TURN = 40;

/**
 * What each layer of a gathered picture is worth (`readLayers`), in turns: others are let through in between.
 *
 * @throws the signal's reason when aborted
 */
export async function weigh(
  { stack, depth, space }: Pick<Gathered, 'stack' | 'depth' | 'space'>,
  how: { readonly signal?: AbortSignal | undefined; readonly onProgress?: (share: number) => void } = {},
): Promise<LayersReading> {
  const steps = layersReader(stack, depth, space);
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

/** The other core's side of the pool. */
import { parentPort } from 'node:worker_threads';
import { type Job, work } from './jobs.ts';

parentPort?.on('message', ({ id, order }: { id: number; order: Job }) => {
  const result = work(order);
  const views: ArrayBufferView[] =
    result.kind === 'cast' ? Object.values(result.passes).filter(ArrayBuffer.isView) : [result.pixels];
  const moved = [...new Set(views.map((v) => v.buffer))].filter(
    (b): b is ArrayBuffer => b instanceof ArrayBuffer,
  );
  parentPort?.postMessage({ id, result }, moved);
});

import { availableParallelism } from 'node:os';
import Tinypool from 'tinypool';

/** Every worker holds one picture, so this bounds the memory on machines with many cores. */
const MOST_WORKERS = 8;

/**
 * Threads for many pictures, one on each core, each with one picture after the other.
 *
 * @param worker the worker's file
 */
export function openPool(worker: URL, tasks: number): Tinypool {
  return new Tinypool({
    filename: worker.href,
    maxThreads: Math.max(1, Math.min(tasks, availableParallelism(), MOST_WORKERS)),
    minThreads: 1,
  });
}

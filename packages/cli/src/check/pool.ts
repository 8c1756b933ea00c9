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
  return new Tinypool({ filename: worker.href, ...sizeFor(tasks) });
}

/**
 * The same with a process on each core, for hundreds of pictures. Blocks of tens of megabytes that come and go split
 * the memory of a long run into pieces, so that it grows with the number of pictures; only a process can be told, at
 * its start, to give large blocks back to the system (the variables are those of the GNU C library; others ignore
 * them).
 */
export function openProcesses(worker: URL, tasks: number): Tinypool {
  const env = {
    ...process.env,
    MALLOC_ARENA_MAX: '2',
    MALLOC_MMAP_THRESHOLD_: LARGE,
    MALLOC_TRIM_THRESHOLD_: LARGE,
  };
  return new Tinypool({
    filename: worker.href,
    ...sizeFor(tasks),
    runtime: 'child_process',
    env: env as Record<string, string>,
    execArgv: [],
  });
}

/** Bytes from which on a block counts as large. */
const LARGE = String(2 ** 20);

function sizeFor(tasks: number): { minThreads: number; maxThreads: number } {
  return { minThreads: 1, maxThreads: Math.max(1, Math.min(tasks, availableParallelism(), MOST_WORKERS)) };
}

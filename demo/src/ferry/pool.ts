/** Two workers that take jobs from one list; without built files (in tests) the jobs are done in place. */
import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { type Job, type Result, work } from './jobs.ts';

export interface Pool {
  /** Results in the order of the jobs. */
  run(jobs: readonly Job[], onDone?: (done: number) => void): Promise<Result[]>;
  close(): Promise<void>;
}

/** Opens a pool of `size` workers; 0 does everything on this thread. */
export function openPool(size = 2): Pool {
  const script = new URL('./worker.js', import.meta.url);
  const workers =
    size > 0 && existsSync(script) ? Array.from({ length: size }, () => new Worker(script)) : [];
  return {
    async run(jobs, onDone) {
      let done = 0;
      if (workers.length === 0)
        return jobs.map((job) => {
          const result = work(job);
          onDone?.(++done);
          return result;
        });
      const results: Result[] = new Array(jobs.length);
      let next = 0;
      await Promise.all(
        workers.map(async (worker) => {
          for (let id = next++; id < jobs.length; id = next++) {
            results[id] = await ask(worker, id, jobs[id]!);
            onDone?.(++done);
          }
        }),
      );
      return results;
    },
    async close() {
      await Promise.all(workers.map((w) => w.terminate()));
    },
  };
}

function ask(worker: Worker, id: number, order: Job): Promise<Result> {
  return new Promise((resolve, reject) => {
    const stop = () => {
      worker.off('message', heard);
      worker.off('error', failed);
    };
    const heard = (message: { id: number; result: Result }) => {
      stop();
      resolve(message.result);
    };
    const failed = (error: Error) => {
      stop();
      reject(error);
    };
    worker.on('message', heard);
    worker.on('error', failed);
    worker.postMessage({ id, order });
  });
}

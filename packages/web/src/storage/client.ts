// However the build cuts its files: the guard is there before a worker is started.
import '../offline/guard.ts';
import { type Remote, wrap } from 'comlink';
import type { Keeper } from './keeper.ts';

/** Starts the worker that alone touches the store. */
export function startKeeper(): Remote<Keeper> {
  return wrap<Keeper>(
    new Worker(new URL('../workers/storage.worker.ts', import.meta.url), { type: 'module' }),
  );
}

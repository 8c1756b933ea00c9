import { type Remote, wrap } from 'comlink';
import type { Keeper } from './keeper.ts';

/** Starts the worker that alone touches the store; tells when it dies or could not be loaded. */
export function startKeeper(onCrash: () => void): Remote<Keeper> {
  const worker = new Worker(new URL('../workers/storage.worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('error', (event) => {
    event.preventDefault();
    onCrash();
  });
  return wrap<Keeper>(worker);
}

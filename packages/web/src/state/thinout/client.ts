// However the build cuts its files: the guard is there before a worker is started.
import '../../offline/guard.ts';
import { type Remote, wrap } from 'comlink';
import { Stopped, screenSpace } from '../../picture/client.ts';
import { openJobs } from '../../picture/jobs.ts';
import type { LayersDesk } from '../../workers/layers/desk.ts';

/** The worker lets others through many times a second, but not while a file is packed: after so long it is ended. */
const PATIENCE = 1500;

/** The page's end of the layers' worker; it is started when it is first needed. */
export interface LayersClient {
  /** Lets the worker do something; rejects with `Stopped` when it is stopped, with a sentence when the worker dies. */
  run<T>(job: (desk: Remote<LayersDesk>) => Promise<T>): Promise<T>;
  /** Stops what runs. A worker that stays deaf is ended, and holds no picture any more: `onEnd` is told. */
  stop(): void;
  /** Waits until what was stopped has ended, one way or the other; what is asked before may end with it. */
  calm(): Promise<void>;
}

export function startLayersClient(onEnd: () => void): LayersClient {
  let worker: Worker | null = null;
  let desk: Remote<LayersDesk> | null = null;
  const jobs = openJobs();
  let stopping = Promise.resolve();

  const end = (reason: Error): void => {
    worker?.terminate();
    worker = null;
    desk = null;
    onEnd();
    jobs.giveUp(reason);
  };
  const current = (): Remote<LayersDesk> => {
    if (desk) return desk;
    worker = new Worker(new URL('../../workers/layers/layers.worker.ts', import.meta.url), {
      type: 'module',
    });
    worker.addEventListener('error', (event) => {
      event.preventDefault();
      end(new Error('The part that reads layers stopped unexpectedly. Nothing is lost; read them again.'));
    });
    desk = wrap<LayersDesk>(worker);
    void desk.begin(document.baseURI, screenSpace());
    return desk;
  };
  return {
    run: (job) => jobs.run(() => job(current())),
    stop() {
      if (jobs.idle || desk === null) return;
      jobs.giveUp(new Stopped());
      const mine = worker;
      const heard = desk.stop().then(() => true);
      const late = new Promise<false>((tell) => setTimeout(() => tell(false), PATIENCE));
      stopping = Promise.race([heard, late]).then((calm) => {
        if (!calm && mine !== null && mine === worker) end(new Stopped());
      });
    },
    calm: () => stopping,
  };
}

// However the build cuts its files: the guard is there before a worker is started.
import '../offline/guard.ts';
import { type Remote, wrap } from 'comlink';
import { Stopped } from '../picture/client.ts';
import { openJobs } from '../picture/jobs.ts';
import type { ClassDesk, ClassMeasure } from '../workers/class/desk.ts';

/** The page's end of the class worker; it is started when it is first needed. */
export interface ClassClient {
  /** Lets the worker do something; rejects with `Stopped` when it is stopped, with a sentence when the worker dies. */
  run<T>(job: (desk: Remote<ClassDesk>) => Promise<T>): Promise<T>;
  /** Every number that works can be placed by. */
  measures(): Promise<readonly ClassMeasure[]>;
  stop(): void;
}

export function startClassClient(): ClassClient {
  let worker: Worker | null = null;
  let desk: Remote<ClassDesk> | null = null;
  let ready: Promise<ClassMeasure[]> | null = null;
  const jobs = openJobs();

  const end = (reason: Error): void => {
    worker?.terminate();
    worker = null;
    desk = null;
    ready = null;
    jobs.giveUp(reason);
  };
  const current = (): Remote<ClassDesk> => {
    if (desk) return desk;
    worker = new Worker(new URL('../workers/class/class.worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('error', (event) => {
      event.preventDefault();
      end(new Error('It stops the part that reads pictures. Ask for a smaller copy of it.'));
    });
    desk = wrap<ClassDesk>(worker);
    ready = desk.begin(document.baseURI);
    return desk;
  };
  return {
    run: (job) => jobs.run(() => job(current())),
    measures() {
      current();
      return ready ?? Promise.resolve([]);
    },
    stop: () => end(new Stopped()),
  };
}

// However the build cuts its files: the guard is there before a worker is started.
import '../offline/guard.ts';
import { proxy, type Remote, wrap } from 'comlink';
import type { OpenedPicture, PictureDesk, Progress, ScreenSpace } from './desk.ts';
import type { EditDesk } from './edit-desk.ts';
import type { HandoverDesk } from './handover-desk.ts';
import type { TimeDesk } from './time-desk.ts';

type Desk = PictureDesk & EditDesk & TimeDesk & HandoverDesk;

/**
 * The page's end of the picture worker. Cancelling ends the worker and starts a new one: nothing a decoder
 * does can hold it up. After that, and after a crash, no picture is open.
 */
export interface PictureClient {
  /** Opens a picture; a call that is still running is stopped first. Rejects with `Stopped` when stopped. */
  open(file: Blob, name: string, progress: (p: Progress) => void): Promise<OpenedPicture>;
  /** Lets the worker do something that `stop` ends; rejects with `Stopped` then. */
  run<T>(job: (desk: Remote<Desk>) => Promise<T>): Promise<T>;
  stop(): void;
  /** Loads the codec ahead of the first picture. */
  warm(): void;
  /** Calls the listener when the worker dies by itself. */
  onCrash(listener: () => void): void;
  readonly desk: Remote<Desk>;
}

/** The rejection of an opening that the artist stopped. */
export class Stopped extends Error {
  override name = 'Stopped';
}

export function startPictureClient(): PictureClient {
  let worker: Worker | null = null;
  let desk: Remote<Desk> | null = null;
  let abort: ((reason: Error) => void) | null = null;
  let crashed: () => void = () => undefined;

  const current = (): Remote<Desk> => {
    if (desk === null) {
      worker = new Worker(new URL('../workers/picture.worker.ts', import.meta.url), { type: 'module' });
      worker.addEventListener('error', (event) => {
        event.preventDefault();
        end(new Error('The part that reads pictures stopped unexpectedly. Nothing is lost; open it again.'));
        crashed();
      });
      desk = wrap<Desk>(worker);
    }
    return desk;
  };

  const end = (reason: Error): void => {
    abort?.(reason);
    abort = null;
    worker?.terminate();
    worker = null;
    desk = null;
  };

  const run = async <T>(job: (desk: Remote<Desk>) => Promise<T>): Promise<T> => {
    const stopped = new Promise<never>((_, reject) => {
      abort = reject;
    });
    const mine = abort;
    try {
      return await Promise.race([job(current()), stopped]);
    } finally {
      if (abort === mine) abort = null;
    }
  };

  return {
    open(file, name, progress) {
      if (abort !== null) end(new Stopped());
      const surroundings = { screen: screenSpace(), appBase: document.baseURI };
      return run((desk) => desk.open(file, name, surroundings, proxy(progress)));
    },
    run,
    stop: () => end(new Stopped()),
    warm: () => void current().warm(document.baseURI),
    onCrash: (listener) => {
      crashed = listener;
    },
    get desk() {
      return current();
    },
  };
}

/** The widest space that the screen and the browser's canvas can show. */
export function screenSpace(): ScreenSpace {
  return matchMedia('(color-gamut: p3)').matches ? 'display-p3' : 'srgb';
}

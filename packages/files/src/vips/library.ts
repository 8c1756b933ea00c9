import type Vips from 'wasm-vips';
import { FileTrouble } from '../trouble.ts';

/** The imaging library, started. */
export type Library = NonNullable<typeof Vips>;
export type Image = Vips.Image;

/** What a start needs; `folder` and `script` differ between Node and browser. */
export type Start = (options: { readonly dynamicLibraries: string[] }) => Promise<Library>;

/** Damaged pictures after which the library is started anew: its memory keeps what each of them made it take. */
const MOST_FAILED = 100;

/**
 * Starts the library once, and once more with AVIF on the first picture of that kind: its module is large and
 * can only be given at the start. Its memory never shrinks by itself.
 */
export function libraryOnDemand(start: Start): {
  get(avif: boolean): Promise<Library>;
  /**
   * Does a job by the library. When memory ran out in it, or after many pictures that could not be read, the library
   * is closed as soon as no other job is at work, and the next one starts it anew.
   */
  use<T>(job: (get: (avif: boolean) => Promise<Library>) => Promise<T>): Promise<T>;
  /** Gives the library to somebody who keeps it: from then on it stays as it is until it is closed. */
  lend(): Promise<Library>;
  close(): void;
} {
  const open = new Map<boolean, Promise<Library>>();
  let [running, failed, lent] = [0, 0, false];
  const close = (): void => {
    for (const library of open.values()) library.then((vips) => vips.shutdown()).catch(() => {});
    open.clear();
  };
  const get = (avif: boolean): Promise<Library> => {
    let library = open.get(avif);
    if (!library) {
      library = start({ dynamicLibraries: avif ? ['vips-heif.wasm'] : [] }).then(settle);
      library.catch(() => open.delete(avif)); // a failed start may be tried again
      open.set(avif, library);
    }
    return library;
  };
  return {
    get,
    async use(job) {
      running++;
      try {
        return await job(get);
      } catch (error) {
        if (error instanceof FileTrouble && error.kind === 'memory') failed = MOST_FAILED;
        else if (error instanceof FileTrouble && error.kind === 'damaged') failed++;
        throw error;
      } finally {
        running--;
        if (failed >= MOST_FAILED && running === 0 && !lent) {
          close();
          failed = 0;
        }
      }
    },
    lend() {
      lent = true;
      return get(false);
    },
    close,
  };
}

/** Without its cache the library holds no picture longer than it is used (docs/files.md). */
function settle(vips: Library): Library {
  vips.Cache.max(0);
  vips.concurrency(2);
  vips.blockUntrusted(true);
  return vips;
}

/** Images made along the way, deleted together: the library's memory is not collected by itself. */
export class Scope {
  readonly #images: { delete(): void }[] = [];

  keep<T extends { delete(): void }>(image: T): T {
    this.#images.push(image);
    return image;
  }

  end(): void {
    for (const image of this.#images.reverse()) image.delete();
    this.#images.length = 0;
  }
}

/** True for what the library throws; anything else is a fault of ours and must not pass as a damaged file. */
export function isLibraryError(error: unknown): boolean {
  const { message } = error as { message?: unknown };
  return Array.isArray(message) || outOfMemory(error) || error instanceof WebAssembly.RuntimeError;
}

/** The library's technical text, for `cause`. It throws WebAssembly exceptions whose message is a pair. */
export function technical(error: unknown): string {
  const message = (error as { message?: unknown } | null)?.message;
  return String(Array.isArray(message) ? message[1] : (message ?? error)).trim();
}

/** True when the library ran out of memory (its own, or the machine's). */
export function outOfMemory(error: unknown): boolean {
  return /out of memory|unable to allocate|memory access out of bounds|Array buffer allocation failed|bad_alloc/i.test(
    technical(error),
  );
}

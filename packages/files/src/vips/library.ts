import type Vips from 'wasm-vips';

/** The imaging library, started. */
export type Library = NonNullable<typeof Vips>;
export type Image = Vips.Image;

/** What a start needs; `folder` and `script` differ between Node and browser. */
export type Start = (options: { readonly dynamicLibraries: string[] }) => Promise<Library>;

/**
 * Starts the library once, and once more with AVIF on the first picture of that kind: its module is large and
 * can only be given at the start.
 */
export function libraryOnDemand(start: Start): {
  get(avif: boolean): Promise<Library>;
  close(): void;
} {
  const open = new Map<boolean, Promise<Library>>();
  return {
    get(avif) {
      let library = open.get(avif);
      if (!library) {
        library = start({ dynamicLibraries: avif ? ['vips-heif.wasm'] : [] }).then(settle);
        library.catch(() => open.delete(avif)); // a failed start may be tried again
        open.set(avif, library);
      }
      return library;
    },
    close() {
      for (const library of open.values()) library.then((vips) => vips.shutdown()).catch(() => {});
      open.clear();
    },
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

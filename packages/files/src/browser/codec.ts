import { openInks, readCodes } from '../handover/inks.ts';
import { FileTrouble } from '../trouble.ts';
import type { Codec } from '../types.ts';
import { decodeByLibrary } from '../vips/decode.ts';
import { encodeByLibrary } from '../vips/encode.ts';
import { type Library, libraryOnDemand, type Start, technical } from '../vips/library.ts';

export interface BrowserCodecOptions {
  /** Address of the folder with the imaging library, e.g. `new URL(VIPS_FOLDER, appBase)`; see vite/vipsAssets.ts. */
  readonly folder: string | URL;
}

/** True when the page may share memory between threads, which the imaging library can't do without. */
export function canOpenCodec(): boolean {
  return typeof SharedArrayBuffer === 'function' && globalThis.crossOriginIsolated === true;
}

/**
 * Opens the codec of the browser. To be called in a worker: decoding blocks its thread for up to a strip at a
 * time, encoding until it is done (end the worker to cancel that).
 *
 * Rejects with `FileTrouble` of kind 'setup' when memory can't be shared or the library can't be loaded; the
 * plain codec is then what remains.
 */
export async function openCodec({ folder }: BrowserCodecOptions): Promise<Codec> {
  if (!canOpenCodec()) throw setup();
  const place = new URL(folder);
  trustScriptsOf(place);
  const library = libraryOnDemand(startFrom(place));
  try {
    await library.get(false);
  } catch (error) {
    throw setup(error);
  }
  return {
    kind: 'full',
    async decode(file, options) {
      options.signal?.throwIfAborted();
      return library.use((get) => decodeByLibrary(get, file, options));
    },
    async encode(picture, options) {
      options.signal?.throwIfAborted();
      return library.use(async (get) =>
        encodeByLibrary(await get(options.format === 'avif'), picture, options),
      );
    },
    openInks: async (profile) => openInks(await library.lend(), profile),
    readCodes: (bytes, frames) => library.use(async (get) => readCodes(await get(false), bytes, frames)),
    close: () => library.close(),
  };
}

function startFrom(folder: URL): Start {
  return async (options) => {
    const script = new URL('vips-es6.js', folder).href;
    const { default: start } = await import(/* @vite-ignore */ script);
    return (await start({
      ...options,
      locateFile: (file: string) => new URL(file, folder).href,
      print: () => {},
      printErr: () => {},
      preRun: (module: { ENV: Record<string, string> }) => {
        module.ENV.VIPS_WARNING = '1';
      },
    })) as Library;
  };
}

interface TrustedTypes {
  readonly defaultPolicy: unknown;
  createPolicy(name: 'default', rules: { createScriptURL(url: string): string }): unknown;
}

/**
 * Where a policy enforces trusted types, the library may start its threads only through a default policy of
 * this worker. One that is there already is left in charge.
 */
function trustScriptsOf(folder: URL): void {
  const { trustedTypes } = globalThis as { trustedTypes?: TrustedTypes };
  if (!trustedTypes || trustedTypes.defaultPolicy) return;
  trustedTypes.createPolicy('default', {
    createScriptURL(url) {
      if (new URL(url, folder).href.startsWith(folder.href)) return url;
      throw new TypeError('only the imaging library may start threads here');
    },
  });
}

function setup(error?: unknown): FileTrouble {
  return new FileTrouble(
    'setup',
    'This page can’t use the full picture reader here.',
    'Reload it once; if that does not help, only 8-bit PNG, JPEG and WebP pictures can be read.',
    error === undefined ? undefined : technical(error),
  );
}

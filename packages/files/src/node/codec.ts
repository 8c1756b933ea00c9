import { openInks, readCodes } from '../handover/inks.ts';
import { headOf, wholeOf } from '../pieces.ts';
import { pictureFormat } from '../sniff.ts';
import type { Codec } from '../types.ts';
import { decodeByLibrary } from '../vips/decode.ts';
import { encodeByLibrary } from '../vips/encode.ts';
import { libraryOnDemand } from '../vips/library.ts';
import { startLibrary } from './library.ts';
import { decodeFast } from './sharp.ts';

export interface NodeCodecOptions {
  /** False decodes everything by the WebAssembly library, as the browser does. Default true. */
  readonly fast?: boolean;
}

/** Opens the codec of the command line. Nothing is started before it is needed. */
export async function openCodec({ fast = true }: NodeCodecOptions = {}): Promise<Codec> {
  const library = libraryOnDemand(startLibrary);
  return {
    kind: 'full',
    async decode(file, options) {
      options.signal?.throwIfAborted();
      const format = pictureFormat(headOf(file), options.name);
      const quick = fast ? await decodeFast(wholeOf(file), format, options) : null;
      options.signal?.throwIfAborted();
      if (quick) {
        options.onProgress?.(1);
        return quick;
      }
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

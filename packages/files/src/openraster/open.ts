import type { FileEntry } from '@zip.js/zip.js/lib/zip-core-native.js';
import type { Source } from '../dossier/source.ts';
import { contentOf, readDirectory, zipTrouble } from '../dossier/zip.ts';
import { parseStack, type StoredLayer, type StoredStack } from './stack.ts';
import { layeredTrouble } from './trouble.ts';

/** First file of the ZIP, by the OpenRaster file layout specification. */
export const MIMETYPE = 'image/openraster';
const STACK = 'stack.xml';
const MERGED = 'mergedimage.png';
const MOST_STACK = 8 * 2 ** 20;
const MOST_PIXELS = 2 ** 29;

/** A layered picture that can be read; it stays tied to its source. */
export interface OpenRaster extends StoredStack {
  readonly name: string;
  /** The PNG of a layer. */
  layer(layer: StoredLayer): Promise<Uint8Array<ArrayBuffer>>;
  /** The PNG of the whole picture as the program that saved it shows it; null when it is missing. */
  merged(): Promise<Uint8Array<ArrayBuffer> | null>;
}

/**
 * Opens an OpenRaster file: reads its directory and its list of layers, and no pixels yet.
 *
 * @throws FileTrouble when it is none, is damaged or hostile
 */
export async function openOpenRaster(source: Source, limitMegapixels = 100): Promise<OpenRaster> {
  const { name } = source;
  const entries = await readDirectory(source, layeredTrouble);
  const bytes = async (entry: FileEntry, most: number): Promise<Uint8Array<ArrayBuffer>> => {
    const tooLarge = () =>
      layeredTrouble.hostile(name, `“${entry.filename}” in it unpacks to more than it should`);
    if (entry.uncompressedSize > most) throw tooLarge();
    try {
      return new Uint8Array(
        await new Response(contentOf(entry, entry.uncompressedSize, tooLarge)).arrayBuffer(),
      );
    } catch (error) {
      throw zipTrouble(error, source, layeredTrouble);
    }
  };
  const type = entries.get('mimetype');
  if (!type || new TextDecoder().decode(await bytes(type, 256)).trim() !== MIMETYPE)
    throw layeredTrouble.none(name, 'its first file does not say so');
  const list = entries.get(STACK);
  if (!list) throw layeredTrouble.none(name, `it has no ${STACK}`);
  const stack = parseStack(new TextDecoder().decode(await bytes(list, MOST_STACK)), name, limitMegapixels);
  return {
    ...stack,
    name,
    async layer({ src, path }) {
      const entry = entries.get(src);
      if (entry) return bytes(entry, MOST_PIXELS);
      if (src.startsWith('/') || /^[a-z]+:/i.test(src) || src.split(/[\\/]/).includes('..'))
        throw layeredTrouble.hostile(
          name,
          `the layer “${path}” points outside of it (“${src.slice(0, 60)}”)`,
        );
      throw layeredTrouble.missing(name, path, src.slice(0, 60));
    },
    async merged() {
      const entry = entries.get(MERGED);
      return entry ? bytes(entry, MOST_PIXELS) : null;
    },
  };
}

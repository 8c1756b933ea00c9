import type { Codec, Decoded } from '@halflight/files';
import { canOpenCodec, filePieces, openCodec, openPlainCodec, VIPS_FOLDER } from '@halflight/files/browser';
import type { Progress } from '../../picture/desk.ts';

/** Share of an opening that decoding takes; the rest is counting and looking. */
const DECODING = 0.6;

/** Files below this are read whole: in pieces the library asks for some thousand bytes at a time, which takes its time. */
const SMALL_BYTES = 16e6;

let codec: Promise<Codec> | null = null;

/** Loads the codec before it is asked for; the full one where the page may share memory. */
export function warmCodec(appBase: string): void {
  codec ??= openBest(appBase);
}

/** The codec, once it is ready. */
export function readyCodec(appBase: string): Promise<Codec> {
  warmCodec(appBase);
  return codec as Promise<Codec>;
}

/** Decodes a picture, telling how far it is. Rejects with a sentence when it can't be read. */
export async function decodePicture(
  file: Blob,
  name: string,
  appBase: string,
  progress: (p: Progress) => void,
): Promise<Decoded> {
  progress({ doing: 'Getting the picture reader ready', share: 0 });
  const ready = await readyCodec(appBase);
  const tell = (share: number): void => progress({ doing: 'Reading the pixels', share: DECODING * share });
  tell(0);
  if (/\.ora$/i.test(name)) {
    const { decodeLayered } = await import('./layered.ts');
    return decodeLayered(file, name, ready, tell);
  }
  const content = file.size < SMALL_BYTES ? new Uint8Array(await file.arrayBuffer()) : filePieces(file);
  return ready.decode(content, { name, onProgress: tell });
}

async function openBest(appBase: string): Promise<Codec> {
  if (!canOpenCodec()) return openPlainCodec();
  return openCodec({ folder: new URL(VIPS_FOLDER, appBase) }).catch(openPlainCodec);
}

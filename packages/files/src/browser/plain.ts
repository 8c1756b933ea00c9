import { breathe } from '../breathe.ts';
import { type ColourPlan, planColour } from '../colour.ts';
import { readHints } from '../container/hints.ts';
import { refuseHollow } from '../container/hollow.ts';
import { iccOf } from '../container/icc.ts';
import { finish, type Pixels } from '../finish.ts';
import { type Pieces, wholeOf } from '../pieces.ts';
import { pictureFormat } from '../sniff.ts';
import { FileTrouble, trouble } from '../trouble.ts';
import type { Codec, Decoded, DecodeOptions, PictureFormat } from '../types.ts';
import { DEFAULT_LIMIT } from '../vips/decode.ts';
import { looksWhole } from './whole.ts';

const READS: readonly PictureFormat[] = ['png', 'jpeg', 'webp'];
/** A page that is isolated already gains nothing from a reload: its browser shares no memory. */
const RELOAD = globalThis.crossOriginIsolated
  ? 'Open Halflight in another browser, or use the command line.'
  : 'Reload the page once, or open Halflight in another browser or from the command line.';
const STRIP_PIXELS = 2 ** 20;

/**
 * The codec for pages that can't share memory: the browser's own decoders, reading 8-bit PNG, JPEG and WebP.
 * Profiles of curves and a matrix are honoured, since they need no colour-management library.
 */
export function openPlainCodec(): Codec {
  return {
    kind: 'plain',
    decode: decodePlainly,
    encode: cannotWrite,
    openInks: cannotWrite,
    readCodes: cannotWrite,
    close() {},
  };
}

async function cannotWrite(): Promise<never> {
  throw new FileTrouble('setup', 'This page can’t write pictures without the full picture reader.', RELOAD);
}

async function decodePlainly(file: Uint8Array | Pieces, options: DecodeOptions): Promise<Decoded> {
  const bytes = wholeOf(file);
  const { name, limitMegapixels = DEFAULT_LIMIT, signal } = options;
  signal?.throwIfAborted();
  const format = pictureFormat(bytes, name);
  if (!READS.includes(format))
    throw trouble.format(
      name,
      `is ${format === 'avif' ? 'an' : 'a'} ${format.toUpperCase()} picture`,
      RELOAD,
    );
  const hints = readHints(format, bytes);
  if (hints.cmyk) throw trouble.format(name, 'is a CMYK picture', RELOAD);
  if (!hints.size || !looksWhole(format, bytes)) throw trouble.damaged(name);
  const { width, height } = hints.size;
  if (width * height > limitMegapixels * 1e6) throw trouble.tooLarge(name, width, height, limitMegapixels);
  refuseHollow(name, hints, bytes.length, limitMegapixels);
  const icc = await iccOf(hints);
  const plan = planColour(name, hints.grey ? 'grey' : 'rgb', icc, hints);
  if (!plan.space) throw trouble.format(name, `has a table profile (${plan.profile})`, RELOAD);
  const bitmap = await openBitmap(bytes, format, name);
  try {
    const { pixels, clear } = await takeBitmap(bitmap, options);
    const notes = ['The browser’s own reader was used.'];
    if (hints.deep) notes.push('The file has 16 bits a channel; 8 were read.');
    if (clear) notes.push('Colours of half-transparent places are rounded.');
    return finish({
      name,
      format,
      hints,
      pixels,
      space: plan.space,
      plan: plan satisfies ColourPlan,
      icc,
      metadata: { exif: hints.exif?.slice() ?? null, xmp: null, iptc: null },
      frames: 1,
      notes,
    });
  } finally {
    bitmap.close();
  }
}

/** Upright, with code values as they are in the file. */
async function openBitmap(bytes: Uint8Array, format: PictureFormat, name: string): Promise<ImageBitmap> {
  try {
    return await createImageBitmap(
      new Blob([bytes as Uint8Array<ArrayBuffer>], { type: `image/${format}` }),
      {
        colorSpaceConversion: 'none',
        premultiplyAlpha: 'none',
        imageOrientation: 'from-image',
      },
    );
  } catch (error) {
    throw trouble.damaged(name, error);
  }
}

/** Pixels of a bitmap, strip by strip; three channels when nothing is transparent. */
async function takeBitmap(
  bitmap: ImageBitmap,
  { name, signal, onProgress }: DecodeOptions,
): Promise<{ pixels: Pixels; clear: boolean }> {
  const { width, height } = bitmap;
  const rows = Math.max(1, Math.floor(STRIP_PIXELS / width));
  const context = new OffscreenCanvas(width, Math.min(rows, height)).getContext('2d', {
    willReadFrequently: true,
  });
  if (!context) throw trouble.memory(name);
  const all = new Uint8Array(4 * width * height);
  let clear = false;
  for (let y = 0; y < height; y += rows) {
    signal?.throwIfAborted();
    context.clearRect(0, 0, width, rows);
    context.drawImage(bitmap, 0, -y);
    const { data } = context.getImageData(0, 0, width, Math.min(rows, height - y));
    for (let i = 3; i < data.length && !clear; i += 4) clear = data[i] < 255;
    all.set(data, 4 * y * width);
    onProgress?.(Math.min(1, (y + rows) / height));
    await breathe();
  }
  const data = clear ? all : withoutAlpha(all);
  return { pixels: { width, height, channels: clear ? 4 : 3, depth: 8, data }, clear };
}

/** Three of four channels, moved together in place and cut off. */
function withoutAlpha(all: Uint8Array): Uint8Array {
  const count = all.length / 4;
  for (let i = 0; i < count; i++) {
    all[3 * i] = all[4 * i];
    all[3 * i + 1] = all[4 * i + 1];
    all[3 * i + 2] = all[4 * i + 2];
  }
  return all.slice(0, 3 * count);
}

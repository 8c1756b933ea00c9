import { breathe } from '../breathe.ts';
import type { Pixels } from '../finish.ts';
import type { Image } from './library.ts';

/**
 * Strips are whole multiples of this many rows: readers hand rows out in bundles of 8 or 16 (TIFF: of its own
 * strips, mostly powers of two), and a bundle that is cut can't be read a second time.
 */
const BUNDLE = 64;

/** Pixels of a strip: large enough for the library's two threads, small enough to cancel within a blink. */
const STRIP_PIXELS = 2 ** 20;

export interface Watch {
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((share: number) => void) | undefined;
  readonly onRows?: ((rows: Uint8Array | Uint16Array, y: number, count: number) => void) | undefined;
}

/**
 * Runs the image's pipeline and copies its pixels out, strip after strip, so that the raw picture exists once
 * only (with `onRows` never) and the caller can cancel. Takes uchar or ushort images of three or four bands.
 */
export async function takePixels(image: Image, watch: Watch): Promise<Pixels> {
  const { width, height, bands } = image;
  const depth = image.format === 'ushort' ? 16 : 8;
  const length = watch.onRows ? 0 : width * height * bands;
  const data = depth === 16 ? new Uint16Array(length) : new Uint8Array(length);
  const rows = Math.max(1, Math.round(STRIP_PIXELS / width / BUNDLE)) * BUNDLE;
  for (let y = 0; y < height; y += rows) {
    watch.signal?.throwIfAborted();
    const strip = image.crop(0, y, width, Math.min(rows, height - y));
    try {
      const taken = strip.writeToMemory() as Uint8Array | Uint16Array;
      if (watch.onRows) watch.onRows(taken, y, strip.height);
      else data.set(taken, y * width * bands);
    } finally {
      strip.delete();
    }
    watch.onProgress?.(Math.min(1, (y + rows) / height));
    await breathe();
  }
  return { width, height, channels: bands === 4 ? 4 : 3, depth, data };
}

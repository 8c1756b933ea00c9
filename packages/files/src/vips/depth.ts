import type { Raster } from '@halflight/engine';
import { FileTrouble } from '../trouble.ts';
import type { EncodeOptions, RasterRows } from '../types.ts';

type FileDepth = 8 | 10 | 12 | 16;

const DEPTHS: Record<EncodeOptions['format'], readonly FileDepth[]> = {
  png: [8, 16],
  tiff: [8, 16],
  jpeg: [8],
  webp: [8],
  avif: [8, 10, 12],
};

/** The depth to write: the one asked for, else the picture's own where the format has it. */
export function depthOf(picture: { readonly depth: 8 | 16 }, { format, depth }: EncodeOptions): FileDepth {
  const possible = DEPTHS[format];
  if (depth === undefined) return possible.includes(picture.depth) ? picture.depth : 8;
  if (possible.includes(depth)) return depth;
  throw new FileTrouble(
    'option',
    `${format.toUpperCase()} can’t hold ${depth} bits; it holds ${possible.join(', ')}.`,
    depth > 8 ? 'Choose PNG or TIFF for 16 bits, or 8 bits here.' : 'Choose another depth.',
  );
}

/** One way to ask for rows, whether the picture is there or is being made. Throws RangeError for wrong sizes. */
export function rowsOf(picture: Raster | RasterRows): RasterRows['rows'] {
  if ('rows' in picture) return picture.rows;
  const { data, width, height, channels } = picture;
  if (data.length !== width * height * channels) throw new RangeError('raster data does not fit its size');
  return (y, count) => data.subarray(y * width * channels, (y + count) * width * channels) as Uint8Array;
}

/**
 * Code values at the depth of the file: 8 bit as bytes, more as 16-bit words (10 and 12 bit in their upper
 * bits, as the library wants them). Going down rounds to nearest.
 */
export function toDepth(
  codes: Uint8Array | Uint16Array,
  from: 8 | 16,
  to: FileDepth,
): Uint8Array | Uint16Array {
  if (from === to) return codes;
  if (to === 8) return Uint8Array.from(codes, (v) => Math.floor((v + 128) / 257));
  const top = 2 ** to - 1;
  const full = from === 16 ? 65535 : 255;
  const shift = 2 ** (16 - to);
  const out = new Uint16Array(codes.length);
  for (let i = 0; i < codes.length; i++) out[i] = Math.floor((codes[i] * top) / full + 0.5) * shift;
  return out;
}

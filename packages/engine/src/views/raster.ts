import type { ColourSpace } from '../colour/space.ts';

/**
 * Full-size pixels as they stand in the file: code values in the picture's own colour space.
 *
 * `data` is row-major and interleaved, `width × height × channels` values of 0…2^depth − 1. Grey files are
 * expanded to three channels by the decoder; a fourth channel is straight (not premultiplied) alpha.
 */
export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly channels: 3 | 4;
  readonly depth: 8 | 16;
  readonly data: Uint8Array | Uint16Array;
  readonly space: ColourSpace;
}

/** What a person wants to know of the file that the numbers came from. */
export interface PictureFacts {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly depth: 8 | 16;
  /** Name of the profile in words, e.g. "sRGB", "Display P3", "sRGB (assumed, the file names none)". */
  readonly profile: string;
  /** False when the file names no colour space and sRGB is assumed. */
  readonly tagged: boolean;
}

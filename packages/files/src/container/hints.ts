import type { PictureFormat } from '../types.ts';
import { avifHints } from './avif.ts';
import { jpegHints } from './jpeg.ts';
import { pngHints } from './png.ts';
import { tiffHints } from './tiff.ts';
import { webpHints } from './webp.ts';

/**
 * What a container says about its picture beside the pixels, read without decoding.
 *
 * The imaging library leaves out what decides colours where no ICC profile is embedded (PNG's own chunks,
 * coded colour descriptions, EXIF's colour space), so it is read here.
 */
export interface Hints {
  /** Size before orientation, where the container tells it early. */
  readonly size?: { readonly width: number; readonly height: number };
  /**
   * Coded description: primaries and transfer of ITU-T H.273 (PNG cICP, AVIF nclx), and whether it is to be
   * believed before an ICC profile (PNG) or after it (AVIF).
   */
  readonly cicp?: { readonly primaries: number; readonly transfer: number; readonly beforeIcc: boolean };
  /** PNG sRGB chunk. */
  readonly srgb?: true;
  /** PNG gAMA: encoding exponent, e.g. 0.45455. */
  readonly gamma?: number;
  /** PNG cHRM: white, red, green, blue as x, y. */
  readonly chromaticities?: readonly number[];
  /** The EXIF block, starting at its TIFF header. */
  readonly exif?: Uint8Array;
  /** Parts of the ICC profile, still compressed for PNG. */
  readonly icc?: { readonly bytes: Uint8Array; readonly deflated: boolean };
  /** A file of fewer bytes can't hold the pixels that it claims, where the format gives such a bound. */
  readonly leastBytes?: number;
  /** True for more than one frame. */
  readonly animated?: boolean;
  /** True when the samples have more than 8 bits. */
  readonly deep?: boolean;
  /** True when there is one colour channel only. */
  readonly grey?: boolean;
  /** True when the pixels are CMYK or YCCK. */
  readonly cmyk?: boolean;
  /** True when the first picture in the file is only the preview of a camera's raw data. */
  readonly rawPreview?: boolean;
}

/** Reads the hints; damage gives fewer hints, never an error. */
export function readHints(format: PictureFormat, bytes: Uint8Array): Hints {
  try {
    if (format === 'png') return pngHints(bytes);
    if (format === 'jpeg') return jpegHints(bytes);
    if (format === 'webp') return webpHints(bytes);
    if (format === 'avif') return avifHints(bytes);
    if (format === 'tiff') return tiffHints(bytes);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
  }
  return {};
}

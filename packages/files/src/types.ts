import type { ColourSpace, PictureFacts, Raster } from '@halflight/engine';
import type { Codes, Inks } from './handover/inks.ts';
import type { OutputProfile } from './handover/profileFile.ts';
import type { Pieces } from './pieces.ts';

/** The formats that can be read; `encode` writes all but GIF. */
export type PictureFormat = 'png' | 'jpeg' | 'webp' | 'tiff' | 'avif' | 'gif';

export interface DecodeOptions {
  /** The file's name: it appears in facts and in sentences about trouble. */
  readonly name: string;
  /** Pictures above this are refused before their pixels are read. Default 100. */
  readonly limitMegapixels?: number;
  readonly signal?: AbortSignal;
  /** Share of the work done, 0…1. */
  readonly onProgress?: (share: number) => void;
  /**
   * Sees rows `y` to `y + count` as they are read, from top to bottom, interleaved as in `Raster`; nobody then has to
   * hold the picture, and `raster.data` may be empty.
   */
  readonly onRows?: ((rows: Uint8Array | Uint16Array, y: number, count: number) => void) | undefined;
}

/** Data that travels beside the pixels, as it stands in the file; null where there is none. */
export interface Metadata {
  readonly exif: Uint8Array | null;
  readonly xmp: Uint8Array | null;
  readonly iptc: Uint8Array | null;
}

export interface Decoded {
  /** The pixels, upright (the orientation in the metadata has been applied). */
  readonly raster: Raster;
  readonly facts: PictureFacts;
  readonly format: PictureFormat;
  /** The ICC profile that is embedded in the file, whatever was made of it. */
  readonly profile: Uint8Array | null;
  readonly metadata: Metadata;
  /** Sentences about what a person should know: assumed colours, first frame only, a wrong extension. */
  readonly notes: readonly string[];
}

/** Pixels that are made while they are written: nobody has to hold the whole picture twice. */
export interface RasterRows {
  readonly width: number;
  readonly height: number;
  readonly channels: 3 | 4;
  /** True when the four channels are inks (cyan, magenta, yellow, black), for TIFF and JPEG. */
  readonly inks?: boolean;
  readonly depth: 8 | 16;
  readonly space: ColourSpace;
  /**
   * True when `rows` never makes anyone wait: a large picture without transparency is then made while it is written
   * and held by nobody. It can't be stopped by a signal once that has begun.
   */
  readonly atOnce?: boolean;
  /** Rows `y` to `y + count`, interleaved as in `Raster`. Called once for each strip, from top to bottom. */
  readonly rows: (
    y: number,
    count: number,
  ) => Uint8Array | Uint16Array | Promise<Uint8Array> | Promise<Uint16Array>;
}

export interface EncodeOptions {
  readonly format: Exclude<PictureFormat, 'gif'>;
  /**
   * Bits in the file. PNG and TIFF 8 or 16, JPEG and WebP 8, AVIF 8, 10 or 12. Default: the picture's own
   * where the format has it, otherwise 8. Going down rounds; dither is the caller's.
   */
  readonly depth?: 8 | 10 | 12 | 16;
  /** 1…100 for JPEG, WebP and AVIF (default 92); 'lossless' for WebP and AVIF. */
  readonly quality?: number | 'lossless';
  /**
   * The profile that is attached; pixels are never converted by it. Default: a profile of `raster.space`.
   * 'none' attaches nothing.
   */
  readonly profile?: 'srgb' | 'display-p3' | 'a98-rgb' | 'none' | Uint8Array;
  /** Metadata to write along. The orientation in it is set to upright. TIFF takes XMP and IPTC only. */
  readonly metadata?: Partial<Metadata>;
  /** Size in print, stored beside the pixels when given. */
  readonly pixelsPerInch?: number;
  /** What shows through where a format without transparency (JPEG) gets a picture with it; 0…1, default white. */
  readonly background?: readonly [number, number, number];
  readonly signal?: AbortSignal;
  /** Share of the work done, 0…1. */
  readonly onProgress?: (share: number) => void;
}

/**
 * Reads and writes pictures. Node and browser have the same interface and give the same numbers.
 *
 * `decode` and `encode` reject with `FileTrouble` for anything a file or an option can do wrong, and with the
 * signal's reason when aborted.
 */
export interface Codec {
  /** 'full', or 'plain' for the browser's own decoders (PNG, JPEG and WebP at 8 bit, reading only). */
  readonly kind: 'full' | 'plain';
  /** @param file its bytes, or pieces of it where nobody is to hold it whole */
  decode(file: Uint8Array | Pieces, options: DecodeOptions): Promise<Decoded>;
  encode(picture: Raster | RasterRows, options: EncodeOptions): Promise<Uint8Array>;
  /** Opens a profile with tables for conversion. Rejects with `FileTrouble` when the library can't use it. */
  openInks(profile: OutputProfile): Promise<Inks>;
  /**
   * Code values as they stand in a file, inks too, without colour management: to read files back. With `frames` all
   * pictures of an animation, one below the other.
   */
  readCodes(bytes: Uint8Array, frames?: 'all'): Promise<Codes>;
  /** Ends the library's threads. The codec can't be used after that. */
  close(): void;
}

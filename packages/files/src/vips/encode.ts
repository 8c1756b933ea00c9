import { DELIVERY_SPACES, type Raster } from '@halflight/engine';
import { breathe } from '../breathe.ts';
import { writeProfile } from '../icc/write.ts';
import { FileTrouble } from '../trouble.ts';
import type { EncodeOptions, RasterRows } from '../types.ts';
import { depthOf, rowsOf, toDepth } from './depth.ts';
import { GrowingFile } from './growing.ts';
import { type Image, isLibraryError, type Library, outOfMemory, Scope, technical } from './library.ts';
import { isStreamed, type Streamed, streamed } from './stream.ts';

const STRIP_PIXELS = 2 ** 20;
const DEFAULT_QUALITY = 92;
const SUFFIX = { png: '.png', jpeg: '.jpg', webp: '.webp', tiff: '.tif', avif: '.avif' } as const;
/** Longest side that a format can hold: WebP RFC 9649, JPEG T.81, AV1 by the library's encoder. */
const LONGEST = { png: 2 ** 31 - 1, jpeg: 65535, webp: 16383, tiff: 2 ** 31 - 1, avif: 16384 } as const;
/** Flags of the library for what is written beside the pixels. */
const KEEP = { exif: 1, xmp: 2, iptc: 4, icc: 8 } as const;

/** Encodes by the imaging library; profile and metadata are attached, pixels written as they are. */
export async function encodeByLibrary(
  vips: Library,
  picture: Raster | RasterRows,
  options: EncodeOptions,
): Promise<Uint8Array> {
  const { format } = options;
  if (Math.max(picture.width, picture.height) > LONGEST[format])
    throw new FileTrouble(
      'option',
      `${format.toUpperCase()} holds at most ${LONGEST[format]} pixels on a side.`,
      'Choose another format or a smaller size.',
    );
  const inks = 'inks' in picture && picture.inks === true;
  if (inks && format !== 'tiff' && format !== 'jpeg')
    throw new FileTrouble('option', `${format.toUpperCase()} can’t hold inks.`, 'Choose TIFF or JPEG.');
  const depth = depthOf(picture, options);
  const scope = new Scope();
  let stream: Streamed | null = null;
  try {
    if ('rows' in picture && isStreamed(picture, depth)) {
      const rows = picture.rows as (y: number, count: number) => Uint8Array | Uint16Array;
      stream = streamed(vips, scope, picture, depth, (y, count) =>
        toDepth(rows(y, count), picture.depth, depth),
      );
    }
    const image = stream?.image ?? (await gather(vips, scope, picture, depth, options));
    const opaque = format === 'jpeg' && !inks ? flatten(scope, image, options) : image;
    const ready = attach(scope, opaque, picture, options);
    options.signal?.throwIfAborted();
    if (options.onProgress) {
      const { onProgress } = options;
      const from = stream ? 0 : 0.5;
      ready.onProgress = (percent) => onProgress(from + ((1 - from) * percent) / 100);
    }
    const file = new GrowingFile(roomFor(picture, depth));
    const target = scope.keep(new vips.TargetCustom());
    target.onWrite = (data) => file.write(data);
    target.onRead = (length) => file.read(Number(length));
    target.onSeek = (offset, whence) => file.seek(Number(offset), whence);
    ready.writeToTarget(target, SUFFIX[format], {
      ...formatOptions(options, depth),
      keep: keepFlags(options),
    });
    stream?.check();
    options.onProgress?.(1);
    return file.take();
  } catch (error) {
    stream?.check();
    if (!isLibraryError(error)) throw error;
    const memory = outOfMemory(error);
    throw new FileTrouble(
      memory ? 'memory' : 'write',
      memory
        ? 'There is not enough memory to write the picture.'
        : `The picture could not be written as ${format}.`,
      memory ? 'Close other pictures or programs, or write a smaller one.' : 'Choose another format.',
      technical(error),
    );
  } finally {
    scope.end();
  }
}

/** Bytes that no format needs more of: raw pixels, the profile, and some per cent for what can't be compressed. */
function roomFor({ width, height, channels }: Raster | RasterRows, depth: number): number {
  return Math.ceil(1.03 * width * height * channels * (depth === 8 ? 1 : 2)) + 2 ** 20;
}

/** Copies the picture into the library strip by strip and joins the strips. */
async function gather(
  vips: Library,
  scope: Scope,
  picture: Raster | RasterRows,
  depth: 8 | 10 | 12 | 16,
  options: EncodeOptions,
): Promise<Image> {
  const { width, height, channels } = picture;
  const rows = rowsOf(picture);
  const count = Math.max(16, Math.floor(STRIP_PIXELS / width));
  const strips: Image[] = [];
  for (let y = 0; y < height; y += count) {
    options.signal?.throwIfAborted();
    const taken = Math.min(count, height - y);
    const codes = toDepth(await rows(y, taken), picture.depth, depth);
    const format = depth === 8 ? vips.BandFormat.uchar : vips.BandFormat.ushort;
    strips.push(scope.keep(vips.Image.newFromMemory(codes, width, taken, channels, format)));
    options.onProgress?.((0.5 * (y + taken)) / height);
    await breathe();
  }
  const whole = strips.length === 1 ? strips[0] : scope.keep(vips.Image.arrayjoin(strips, { across: 1 }));
  // A strip that is shorter than the others leaves room below it in the join.
  const exact = whole.height === height ? whole : scope.keep(whole.crop(0, 0, width, height));
  const inks = 'inks' in picture && picture.inks;
  return scope.keep(exact.copy({ interpretation: inks ? 'cmyk' : depth === 8 ? 'srgb' : 'rgb16' }));
}

function flatten(scope: Scope, image: Image, options: EncodeOptions): Image {
  if (image.bands < 4) return image;
  return scope.keep(image.flatten({ background: (options.background ?? [1, 1, 1]).map((v) => v * 255) }));
}

/** Puts profile and metadata on the image. */
function attach(scope: Scope, image: Image, picture: Raster | RasterRows, options: EncodeOptions): Image {
  const tagged = scope.keep(image.copy());
  const { exif, xmp, iptc } = options.metadata ?? {};
  if (exif) tagged.setBlob('exif-data', exif);
  if (xmp) tagged.setBlob('xmp-data', xmp);
  if (iptc) tagged.setBlob('iptc-data', options.format === 'tiff' ? fourfold(iptc) : iptc);
  if (exif) tagged.setInt('orientation', 1);
  // After the EXIF block, whose own resolution would win otherwise.
  const perMillimetre = (options.pixelsPerInch ?? 0) / 25.4;
  const out = perMillimetre ? scope.keep(tagged.copy({ xres: perMillimetre, yres: perMillimetre })) : tagged;
  const { profile } = options;
  if (profile === 'none') return out;
  const icc =
    profile instanceof Uint8Array
      ? profile
      : writeProfile(profile ? DELIVERY_SPACES[profile] : picture.space);
  out.setBlob('icc-profile-data', icc);
  return out;
}

/**
 * The library counts this block of TIFF in words but writes as many bytes: only the first quarter of what it is given
 * reaches the file. Zeros behind the block are nothing to readers, should it ever write them.
 */
function fourfold(block: Uint8Array): Uint8Array {
  const out = new Uint8Array(16 * Math.ceil(block.length / 4));
  out.set(block);
  return out;
}

/** The size in print is stored in the EXIF block by formats that have no other place for it. */
function keepFlags({ metadata = {}, profile, pixelsPerInch }: EncodeOptions): number {
  return (
    (metadata.exif || pixelsPerInch ? KEEP.exif : 0) |
    (metadata.xmp ? KEEP.xmp : 0) |
    (metadata.iptc ? KEEP.iptc : 0) |
    (profile === 'none' ? 0 : KEEP.icc)
  );
}

function formatOptions({ format, quality = DEFAULT_QUALITY }: EncodeOptions, depth: number): object {
  const lossless = quality === 'lossless';
  const Q = lossless ? 100 : Math.round(Math.min(100, Math.max(1, quality)));
  if (format === 'png') return { compression: 6 };
  // LZW is three times as fast; at 16 bit it would swell noise beyond its raw size.
  if (format === 'tiff') return { compression: depth === 8 ? 'lzw' : 'deflate', predictor: 'horizontal' };
  // From 90 up colour is kept at full resolution: thin coloured edges matter in a painting.
  if (format === 'jpeg') return { Q, optimize_coding: true, subsample_mode: Q >= 90 ? 'off' : 'on' };
  if (format === 'webp') return { Q, lossless };
  return { Q, lossless, bitdepth: depth, effort: 4, subsample_mode: Q >= 90 ? 'off' : 'on' };
}

import type { Sharp } from 'sharp';
import { planColour } from '../colour.ts';
import { readHints } from '../container/hints.ts';
import { refuseHollow } from '../container/hollow.ts';
import { iccOf } from '../container/icc.ts';
import { finish, type Pixels } from '../finish.ts';
import { trouble } from '../trouble.ts';
import type { Decoded, DecodeOptions, PictureFormat } from '../types.ts';
import { DEFAULT_LIMIT } from '../vips/decode.ts';

const SIMPLE_FORMATS: readonly PictureFormat[] = ['png', 'jpeg', 'webp', 'tiff', 'gif', 'avif'];
const SIMPLE_SPACES = ['srgb', 'rgb', 'b-w', 'rgb16', 'grey16'];
const SIMPLE_DEPTHS = ['uchar', 'ushort'];

/**
 * Decodes simple pictures (RGB and grey whose profile is none or curves and a matrix) with the native build of
 * the same imaging library: two to five times as fast, and without the start of WebAssembly (docs/files.md).
 *
 * Null when the picture is not simple, or anything at all goes wrong: the library then does it, and says what.
 */
export async function decodeFast(
  bytes: Uint8Array,
  format: PictureFormat,
  options: DecodeOptions,
): Promise<Decoded | null> {
  const { name, limitMegapixels = DEFAULT_LIMIT } = options;
  const hints = readHints(format, bytes);
  if (!SIMPLE_FORMATS.includes(format) || hints.cmyk || hints.rawPreview) return null;
  refuseHollow(name, hints, bytes.length, limitMegapixels);
  const { default: sharp } = await import('sharp');
  sharp.cache(false);
  try {
    const source = sharp(bytes, { ignoreIcc: true, failOn: 'warning', limitInputPixels: false });
    const meta = await source.metadata();
    if (!SIMPLE_SPACES.includes(meta.space) || !SIMPLE_DEPTHS.includes(meta.depth)) return null;
    if (meta.channels > 4) return null;
    if (format === 'avif' && meta.depth === 'ushort') return null; // 10 and 12 bits come shifted
    if (meta.width * meta.height > limitMegapixels * 1e6)
      throw trouble.tooLarge(name, meta.width, meta.height, limitMegapixels);
    const icc = meta.icc ? own(meta.icc) : await iccOf(hints);
    const metadata = {
      exif: meta.exif ? own(meta.exif) : null,
      xmp: meta.xmp ? own(meta.xmp) : null,
      iptc: meta.iptc ? own(meta.iptc) : null,
    };
    const model = meta.channels < 3 ? 'grey' : 'rgb';
    const plan = planColour(name, model, icc, metadata.exif ? { ...hints, exif: metadata.exif } : hints);
    if (!plan.space) return null;
    const pixels = await takeRaw(source, meta.depth === 'ushort');
    const frames = meta.pages ?? 1;
    return finish({ name, format, hints, pixels, space: plan.space, plan, icc, metadata, frames });
  } catch (error) {
    if (error instanceof Error && error.name === 'FileTrouble') throw error;
    return null;
  }
}

/**
 * Code values as they stand in the file, upright. For 16 bit the colour space and the depth must both be told,
 * or 8-bit values come back silently.
 */
async function takeRaw(source: Sharp, deep: boolean): Promise<Pixels> {
  const upright = source.autoOrient();
  const raw = deep
    ? upright.toColourspace('rgb16').raw({ depth: 'ushort' })
    : upright.toColourspace('srgb').raw();
  const { data, info } = await raw.toBuffer({ resolveWithObject: true });
  if (info.channels !== 3 && info.channels !== 4) throw new RangeError('channels');
  const whole = own(data);
  return {
    width: info.width,
    height: info.height,
    channels: info.channels,
    depth: deep ? 16 : 8,
    data: deep ? new Uint16Array(whole.buffer) : whole,
  };
}

/** The bytes in a buffer of their own, so that they can be moved between threads; copied only when shared. */
function own(buffer: Buffer): Uint8Array<ArrayBuffer> {
  if (buffer.byteOffset === 0 && buffer.buffer.byteLength === buffer.length)
    return new Uint8Array(buffer.buffer as ArrayBuffer);
  return new Uint8Array(buffer);
}

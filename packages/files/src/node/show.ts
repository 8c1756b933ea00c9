import { SHORTEST_STAND } from '@halflight/engine';
import type { Shown } from '../shown.ts';

/** A small picture as WebP, without a profile: sRGB. */
export async function encodeSmall({ data, width, height, channels }: Shown): Promise<Uint8Array> {
  const { default: sharp } = await import('sharp');
  return sharp(data, { raw: { width, height, channels } }).webp({ quality: 82 }).toBuffer();
}

/** A picture for a page that people read: JPEG, or PNG where every pixel counts; sRGB, without a profile. */
export async function encodeForPage(
  { data, width, height, channels }: Shown,
  format: 'jpeg' | 'png',
): Promise<Uint8Array> {
  const { default: sharp } = await import('sharp');
  const picture = sharp(data, { raw: { width, height, channels } }).flatten({ background: GROUND });
  return format === 'png'
    ? picture.png().toBuffer()
    : picture.jpeg({ quality: 88, chromaSubsampling: '4:4:4' }).toBuffer();
}

/** A small picture that is kept as WebP, for pages that can't hold WebP: JPEG with its size in pixels. */
export async function smallForPage(
  webp: Uint8Array,
): Promise<{ bytes: Uint8Array; width: number; height: number }> {
  const { default: sharp } = await import('sharp');
  const { data, info } = await sharp(webp)
    .flatten({ background: GROUND })
    .jpeg({ quality: 88, chromaSubsampling: '4:4:4' })
    .toBuffer({ resolveWithObject: true });
  return { bytes: data, width: info.width, height: info.height };
}

/** An SVG of our own as PNG, at the size that it asks for. */
export async function drawSvg(svg: string): Promise<Uint8Array> {
  const { default: sharp } = await import('sharp');
  // Pictures inside make the file larger than its reader allows a strange one to be.
  return sharp(Buffer.from(svg), { unlimited: true }).png({ palette: false }).toBuffer();
}

/** A part of a sheet: an encoded picture, and the place and size it is shown at. */
export interface Patch {
  readonly bytes: Uint8Array;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const GROUND = { r: 119, g: 119, b: 119 }; // L* 50

/** Pictures on a neutral grey ground under an SVG drawing of the sheet's size, as PNG. */
export async function encodeSheet(
  width: number,
  height: number,
  patches: readonly Patch[],
  drawing: string,
): Promise<Uint8Array> {
  const { default: sharp } = await import('sharp');
  const layers = await Promise.all(
    patches.map(async ({ bytes, x, y, width: w, height: h }) => ({
      input: await sharp(bytes).resize(Math.round(w), Math.round(h), { fit: 'fill' }).png().toBuffer(),
      left: Math.round(x),
      top: Math.round(y),
    })),
  );
  const sheet = sharp({ create: { width, height, channels: 3, background: GROUND } });
  return sheet
    .composite([...layers, { input: Buffer.from(drawing), left: 0, top: 0 }])
    .png()
    .toBuffer();
}

/** A picture as a frame of an animation: whole on neutral grey, three channels. */
export async function frameOf(picture: Uint8Array, width: number, height: number): Promise<Uint8Array> {
  const { default: sharp } = await import('sharp');
  return sharp(picture)
    .resize(width, height, { fit: 'contain', background: GROUND })
    .flatten({ background: GROUND })
    .toColourspace('srgb')
    .raw()
    .toBuffer();
}

/**
 * Frames of `frameOf` one after the other as an animated WebP that goes round for ever.
 *
 * @param stand how long each picture stands, in milliseconds; at least `SHORTEST_STAND`
 */
export async function encodeAnimation(
  frames: readonly Uint8Array[],
  width: number,
  height: number,
  stand: number,
): Promise<Uint8Array> {
  if (stand < SHORTEST_STAND)
    throw new RangeError('Pictures may not change more often than three times a second.');
  const { default: sharp } = await import('sharp');
  const column = Buffer.concat(frames);
  return sharp(column, { raw: { width, height: height * frames.length, channels: 3, pageHeight: height } })
    .webp({ quality: 90, loop: 0, delay: frames.map(() => Math.round(stand)) })
    .toBuffer();
}

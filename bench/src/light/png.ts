/** 16-bit PNG for pictures (sRGB code values), 8-bit PNG for maps. */
import { linearToSrgb, srgbToLinear } from '@halflight/engine';
import sharp from 'sharp';

/** Writes linear light as 16-bit sRGB; what lies outside 0…1 is clipped, as in any file. */
export async function writePicture(
  path: string,
  rgb: Float32Array,
  width: number,
  height: number,
): Promise<void> {
  const codes = Uint16Array.from(rgb, (v) => Math.round(65535 * linearToSrgb(Math.min(1, Math.max(0, v)))));
  await sharp(codes, { raw: { width, height, channels: 3 } })
    .toColourspace('rgb16')
    .png({ compressionLevel: 6 })
    .toFile(path);
}

/** Reads a picture written by `writePicture` back to linear light. */
export async function readPicture(
  path: string,
): Promise<{ rgb: Float32Array; width: number; height: number }> {
  const { data, info } = await sharp(path, { ignoreIcc: true })
    .toColourspace('rgb16')
    .raw({ depth: 'ushort' })
    .toBuffer({ resolveWithObject: true });
  const codes = new Uint16Array(data.buffer, data.byteOffset, data.byteLength / 2);
  const rgb = Float32Array.from(codes, (v) => decoded[v]!);
  return { rgb, width: info.width, height: info.height };
}

const decoded = Float32Array.from({ length: 65536 }, (_, v) => srgbToLinear(v / 65535));

/** Writes 8-bit grey or colour as it stands. */
export async function writeMap(path: string, data: Uint8Array, width: number, height: number): Promise<void> {
  const channels = (data.length / (width * height)) as 1 | 3;
  let image = sharp(data, { raw: { width, height, channels } });
  if (channels === 1) image = image.toColourspace('b-w');
  await image.png({ compressionLevel: 6 }).toFile(path);
}

/** Reads an 8-bit map of so many channels. */
export async function readMap(path: string, channels: 1 | 3): Promise<Uint8Array> {
  let image = sharp(path, { ignoreIcc: true });
  if (channels === 1) image = image.toColourspace('b-w');
  return new Uint8Array(await image.raw().toBuffer());
}

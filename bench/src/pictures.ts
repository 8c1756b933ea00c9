import { existsSync, mkdirSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { demoFolder, pictureName } from '@halflight/demo';
import sharp from 'sharp';

/** Pictures that the bench makes once and keeps. */
const CACHE = fileURLToPath(new URL('../../.cache/bench/', import.meta.url));

const WIDTH = 6000;
const HEIGHT = 4000;

/**
 * Path of the demo's last version at 24 megapixels, PNG, 8 bit, sRGB: what people really check. Painted once, which
 * takes a minute or two.
 */
export async function paintedPicture(): Promise<string> {
  const folder = await demoFolder({ width: WIDTH, height: HEIGHT, versions: [5] });
  return join(folder, pictureName(5));
}

/**
 * Path of a 24-megapixel PNG, 8 bit, sRGB: broad gradients under noise of ±13 codes a channel, which neither
 * compresses well nor lets neighbours share a colour. The worst case: a painting is kinder to every step.
 */
export const noisyPicture = (): Promise<string> => made('noisy-24.png', WIDTH, HEIGHT);

/** Path of the same in small, 0.1 megapixels: for what does not depend on the size. */
export const smallPicture = (): Promise<string> => made('noisy-small.png', 400, 250);

async function made(name: string, width: number, height: number): Promise<string> {
  const path = CACHE + name;
  if (existsSync(path)) return path;
  mkdirSync(CACHE, { recursive: true });
  const draft = `${path}.part`;
  await sharp(noise(width, height), { raw: { width, height, channels: 3 } })
    .png()
    .toFile(draft);
  renameSync(draft, path);
  return path;
}

function noise(width: number, height: number): Uint8Array {
  const data = new Uint8Array(3 * width * height);
  // Linear congruential generator of Numerical Recipes (2nd edition, 1992).
  let seed = 1;
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (const slope of [y / height, x / width, (x + y) / (width + height)]) {
        seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
        data[i++] = 60 + 100 * slope + ((seed >>> 24) - 128) * 0.1;
      }
  return data;
}

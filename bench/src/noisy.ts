import { existsSync, mkdirSync, renameSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';

/** Pictures that the bench makes once and keeps. */
const CACHE = fileURLToPath(new URL('../../.cache/bench/', import.meta.url));

export const WIDTH = 6000;
export const HEIGHT = 4000;

/**
 * Path of a 24-megapixel PNG, 8 bit, sRGB: broad gradients under noise of ±13 codes a channel, which neither
 * compresses well nor lets neighbours share a colour. A painting is kinder to every step.
 */
export async function noisyPicture(): Promise<string> {
  const path = `${CACHE}noisy-24.png`;
  if (existsSync(path)) return path;
  mkdirSync(CACHE, { recursive: true });
  const draft = `${path}.part`;
  await sharp(noise(), { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
    .png()
    .toFile(draft);
  renameSync(draft, path);
  return path;
}

function noise(): Uint8Array {
  const data = new Uint8Array(3 * WIDTH * HEIGHT);
  // Linear congruential generator of Numerical Recipes (2nd edition, 1992).
  let seed = 1;
  for (let y = 0, i = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++)
      for (const slope of [y / HEIGHT, x / WIDTH, (x + y) / (WIDTH + HEIGHT)]) {
        seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
        data[i++] = 60 + 100 * slope + ((seed >>> 24) - 128) * 0.1;
      }
  return data;
}

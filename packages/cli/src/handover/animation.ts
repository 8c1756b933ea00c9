import type { Codec } from '@halflight/files';
import { holdAnimation } from '@halflight/files/handover';
import { encodeAnimation, frameOf } from '@halflight/files/node';

/** How an animation is to be. */
interface AnimationWish {
  readonly width: number;
  readonly height: number;
  /** How long each picture stands. */
  readonly seconds: number;
  readonly name: string;
}

/**
 * Encoded pictures as an animated WebP, decoded again before anybody gets it.
 *
 * @throws FileTrouble when it does not read back as it was meant
 */
export async function checkedAnimation(
  codec: Codec,
  pictures: readonly Uint8Array[],
  { width, height, seconds, name }: AnimationWish,
): Promise<Uint8Array> {
  const frames: Uint8Array[] = [];
  for (const picture of pictures) frames.push(await frameOf(picture, width, height));
  const bytes = await encodeAnimation(frames, width, height, 1000 * seconds);
  const meant = frames.map((data) => ({ channels: 3, data }) as const);
  await holdAnimation(codec, bytes, meant, width, height, name);
  return bytes;
}

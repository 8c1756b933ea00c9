import type { Hints } from './hints.ts';

/** Bytes of the largest profile that is believed: tables for many inks take a few megabytes. Our default. */
const MOST = 32 * 2 ** 20;

/** Lets a number of bytes pass and fails on more: little that is packed can unpack to more than there is memory. */
function upTo(most: number): Transformer<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>> {
  let count = 0;
  return {
    transform(chunk, controller) {
      count += chunk.length;
      if (count > most) controller.error(new RangeError('it unpacks to more than a profile holds'));
      else controller.enqueue(chunk);
    },
  };
}

/**
 * The ICC profile that the container holds, whatever its state; null when there is none, empty when it can't
 * even be unpacked. The imaging library hands out only profiles that it likes, without a word about others.
 */
export async function iccOf({ icc }: Hints): Promise<Uint8Array | null> {
  if (!icc) return null;
  const bytes = icc.bytes.slice();
  if (!icc.deflated) return bytes;
  try {
    const inflated = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate'));
    const most = new TransformStream<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>(upTo(MOST));
    return new Uint8Array(await new Response(inflated.pipeThrough(most)).arrayBuffer());
  } catch {
    return new Uint8Array(0);
  }
}

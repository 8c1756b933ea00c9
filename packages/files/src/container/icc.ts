import type { Hints } from './hints.ts';

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
    return new Uint8Array(await new Response(inflated).arrayBuffer());
  } catch {
    return new Uint8Array(0);
  }
}

import { trouble } from '../trouble.ts';
import type { Hints } from './hints.ts';

/**
 * Refuses a file whose bytes can't hold the pixels that its header claims, before anybody makes room for them. Only PNG
 * gives a bound that holds: a TIFF may name one strip for every place, a lossless WebP may spend no bit on a pixel.
 *
 * @param length bytes of the file
 */
export function refuseHollow(
  name: string,
  { size, leastBytes = 0 }: Hints,
  length: number,
  limitMegapixels: number,
): void {
  if (!size || length >= leastBytes) return;
  // What is too large as well is said to be that, as every such file is.
  const tooLarge = size.width * size.height > limitMegapixels * 1e6;
  if (!tooLarge) throw trouble.hollow(name, size.width, size.height, length);
}

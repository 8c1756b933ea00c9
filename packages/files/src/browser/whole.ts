import { ascii, viewOf } from '../container/bytes.ts';
import type { PictureFormat } from '../types.ts';

/**
 * Whether a file reaches its end by its own account. Browsers show the upper half of a cut JPEG without a
 * word; nobody should judge that.
 */
export function looksWhole(format: PictureFormat, bytes: Uint8Array): boolean {
  if (format === 'webp')
    return bytes.length >= 12 && viewOf(bytes).getUint32(4, true) + 8 <= bytes.length + 1;
  if (format === 'jpeg') {
    // The end marker; some cameras put data behind it, so it is looked for, not expected last.
    for (let at = bytes.length - 2; at > 2; at--)
      if (bytes[at] === 0xff && bytes[at + 1] === 0xd9) return true;
    return false;
  }
  if (format !== 'png') return true;
  const view = viewOf(bytes);
  for (let at = 8; at + 12 <= bytes.length; at += 12 + view.getUint32(at))
    if (ascii(bytes, at + 4, 4) === 'IEND') return true;
  return false;
}

import { ascii, viewOf } from './bytes.ts';
import type { Hints } from './hints.ts';

/** Samples of a pixel by colour type (section 6.1): grey, RGB, palette, grey and RGB with alpha. */
const CHANNELS: Record<number, number> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };

/**
 * A deflated byte stands for so many bytes at the most: a copy of 258 bytes takes one bit for its length and one for its
 * distance at the least (RFC 1951 section 3.2.5), and 8 bits / 2 × 258 = 1032.
 */
const MOST_DEFLATED = 1032;

/** Chunks before the pixels (PNG, W3C Recommendation, third edition, section 11). */
export function pngHints(bytes: Uint8Array): Hints {
  const view = viewOf(bytes);
  const hints: { -readonly [K in keyof Hints]: Hints[K] } = {};
  for (let at = 8; at + 12 <= bytes.length; ) {
    const length = view.getUint32(at);
    const type = ascii(bytes, at + 4, 4);
    const data = at + 8;
    if (type === 'IDAT' || type === 'IEND') break;
    if (type === 'IHDR') {
      hints.size = { width: view.getUint32(data), height: view.getUint32(data + 4) };
      hints.deep = bytes[data + 8] === 16;
      hints.grey = bytes[data + 9] === 0 || bytes[data + 9] === 4;
      const bits = bytes[data + 8] * (CHANNELS[bytes[data + 9]] ?? 1);
      hints.leastBytes = (hints.size.width * hints.size.height * bits) / 8 / MOST_DEFLATED;
    } else if (type === 'sRGB') hints.srgb = true;
    else if (type === 'gAMA') hints.gamma = view.getUint32(data) / 1e5;
    else if (type === 'cHRM')
      hints.chromaticities = Array.from({ length: 8 }, (_, i) => view.getUint32(data + 4 * i) / 1e5);
    else if (type === 'cICP')
      hints.cicp = { primaries: bytes[data], transfer: bytes[data + 1], beforeIcc: true };
    else if (type === 'acTL') hints.animated = view.getUint32(data) > 1;
    else if (type === 'eXIf') hints.exif = bytes.subarray(data, data + length);
    else if (type === 'iCCP') {
      const end = bytes.indexOf(0, data); // the profile's name ends in a zero, then one byte of method
      if (end > 0 && end < data + 80)
        hints.icc = { bytes: bytes.subarray(end + 2, data + length), deflated: true };
    }
    at = data + length + 4;
  }
  return hints;
}

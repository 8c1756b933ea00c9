import { ascii, viewOf } from './bytes.ts';
import type { Hints } from './hints.ts';

/** RIFF chunks (WebP Container Specification, RFC 9649 section 2). */
export function webpHints(bytes: Uint8Array): Hints {
  const view = viewOf(bytes);
  const hints: { -readonly [K in keyof Hints]: Hints[K] } = {};
  for (let at = 12; at + 8 <= bytes.length; ) {
    const type = ascii(bytes, at, 4);
    const length = view.getUint32(at + 4, true);
    const data = at + 8;
    if (type === 'VP8X') {
      hints.size = { width: 1 + uint24(bytes, data + 4), height: 1 + uint24(bytes, data + 7) };
      hints.animated = (bytes[data] & 2) !== 0;
    } else if (type === 'VP8 ')
      hints.size ??= {
        width: view.getUint16(data + 6, true) & 0x3fff,
        height: view.getUint16(data + 8, true) & 0x3fff,
      };
    else if (type === 'VP8L') {
      const bits = view.getUint32(data + 1, true);
      hints.size ??= { width: (bits & 0x3fff) + 1, height: ((bits >> 14) & 0x3fff) + 1 };
    } else if (type === 'ICCP') hints.icc = { bytes: bytes.subarray(data, data + length), deflated: false };
    else if (type === 'EXIF') {
      const skip = ascii(bytes, data, 6) === 'Exif\0\0' ? 6 : 0;
      hints.exif = bytes.subarray(data + skip, data + length);
    }
    at = data + length + (length & 1);
  }
  return hints;
}

function uint24(bytes: Uint8Array, at: number): number {
  return bytes[at] | (bytes[at + 1] << 8) | (bytes[at + 2] << 16);
}

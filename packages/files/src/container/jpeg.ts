import { ascii, viewOf } from './bytes.ts';
import type { Hints } from './hints.ts';

/** Segments before the first scan (ITU-T T.81 annex B; ICC.1 annex B.4 for APP2; Exif for APP1). */
export function jpegHints(bytes: Uint8Array): Hints {
  const view = viewOf(bytes);
  const hints: { -readonly [K in keyof Hints]: Hints[K] } = {};
  const parts: Uint8Array[] = [];
  for (let at = 2; at + 4 <= bytes.length; ) {
    if (bytes[at] !== 0xff) break;
    const marker = bytes[at + 1];
    if (marker === 0xff) {
      at++;
      continue;
    }
    if (marker === 0xda || marker === 0xd9) break;
    const length = view.getUint16(at + 2);
    const data = at + 4;
    const end = at + 2 + length;
    // Start of frame 0–15, without DHT (4), JPG (8) and DAC (12).
    if (marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc) {
      hints.size = { width: view.getUint16(data + 3), height: view.getUint16(data + 1) };
      hints.deep = bytes[data] > 8;
      hints.grey = bytes[data + 5] === 1;
      hints.cmyk = bytes[data + 5] === 4;
    } else if (marker === 0xe1 && ascii(bytes, data, 6) === 'Exif\0\0') {
      hints.exif ??= bytes.subarray(data + 6, end);
    } else if (marker === 0xe2 && ascii(bytes, data, 12) === 'ICC_PROFILE\0') {
      parts[bytes[data + 12]] = bytes.subarray(data + 14, end);
    }
    at = end;
  }
  if (parts.length > 0) hints.icc = { bytes: join(parts.filter(Boolean)), deflated: false };
  return hints;
}

function join(parts: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

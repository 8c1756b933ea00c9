import { looksWhole } from '../browser/whole.ts';
import { sniff } from '../sniff.ts';
import { ascii, viewOf } from './bytes.ts';

/**
 * Whether a file that some program is just saving has come to its end, by its own account: end chunk (PNG), end
 * marker (JPEG), length (WebP, and boxes after ISO/IEC 14496-12), directory (TIFF 6.0, which most programs write
 * last), directory at the end (ZIP). Kinds that don't say count as ended: whoever reads them will see.
 */
export function cameToEnd(bytes: Uint8Array): boolean {
  if (ascii(bytes, 0, 4) === 'PK\x03\x04') return zipEnds(bytes);
  const { picture } = sniff(bytes, '');
  if (picture === null) return bytes.length >= HEAD;
  if (picture === 'tiff') return tiffEnds(bytes);
  return ascii(bytes, 4, 4) === 'ftyp' ? boxesEnd(bytes) : looksWhole(picture, bytes);
}

/** So many bytes tell the kind of any picture. */
const HEAD = 16;

function tiffEnds(bytes: Uint8Array): boolean {
  const view = viewOf(bytes);
  const little = ascii(bytes, 0, 2) === 'II';
  if (bytes.length < 8 || view.getUint16(2, little) !== 42) return bytes.length >= HEAD;
  const at = view.getUint32(4, little);
  if (at < 8 || at + 2 > bytes.length) return false;
  const count = view.getUint16(at, little);
  if (at + 2 + 12 * count + 4 > bytes.length) return false;
  // Values that don't fit into their entry stand elsewhere, often behind the directory.
  for (let entry = at + 2; entry < at + 2 + 12 * count; entry += 12) {
    const length = (SIZES[view.getUint16(entry + 2, little)] ?? 0) * view.getUint32(entry + 4, little);
    if (length > 4 && view.getUint32(entry + 8, little) + length > bytes.length) return false;
  }
  return true;
}

/** Bytes of a value by its type, TIFF 6.0 section 2. */
const SIZES = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8];

function boxesEnd(bytes: Uint8Array): boolean {
  const view = viewOf(bytes);
  let at = 0;
  while (at + 8 <= bytes.length) {
    const size = view.getUint32(at);
    // Zero: to the end of the file, wherever that is; one: a length of 64 bits follows.
    if (size === 0) return true;
    if (size === 1 && at + 16 > bytes.length) return false;
    const whole = size === 1 ? Number(view.getBigUint64(at + 8)) : size;
    if (whole < 8) return true;
    at += whole;
  }
  return at === bytes.length;
}

/** The end record may be followed by a comment of up to 64 kB. */
function zipEnds(bytes: Uint8Array): boolean {
  for (let at = bytes.length - 22; at >= Math.max(0, bytes.length - 22 - 0xffff); at--)
    if (ascii(bytes, at, 4) === 'PK\x05\x06') return true;
  return false;
}

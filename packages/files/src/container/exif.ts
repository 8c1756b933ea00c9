import { ascii, viewOf } from './bytes.ts';
import { numberOf, openTiff, readDirectory } from './tiff.ts';

const EXIF_IFD = 0x8769;
const INTEROP_IFD = 0xa005;
const COLOR_SPACE = 0xa001;
const INTEROP_INDEX = 1;

/**
 * The colour space that EXIF names: 1 is sRGB; the optional wider space of the camera file rules (DCF) is told
 * by interoperability index "R03" and equals a98-rgb. Source: CIPA DC-008 (Exif) section 4.6.6, DC-009 (DCF).
 * Starts at the TIFF header; a leading "Exif\0\0" is skipped. Null when nothing is named.
 */
export function exifColourSpace(block: Uint8Array): 'srgb' | 'a98-rgb' | null {
  const exif = ascii(block, 0, 6) === 'Exif\0\0' ? block.subarray(6) : block;
  try {
    const tiff = openTiff(exif);
    if (!tiff) return null;
    const first = readDirectory(exif, tiff.first, tiff.little);
    const place = numberOf(exif, first, EXIF_IFD, tiff.little);
    if (place === undefined) return null;
    const entries = readDirectory(exif, place, tiff.little);
    if (numberOf(exif, entries, COLOR_SPACE, tiff.little) === 1) return 'srgb';
    const interop = numberOf(exif, entries, INTEROP_IFD, tiff.little);
    if (interop === undefined) return null;
    const index = readDirectory(exif, interop, tiff.little).get(INTEROP_INDEX);
    return index && ascii(exif, index.at, 3) === 'R03' ? 'a98-rgb' : null;
  } catch (error) {
    if (error instanceof RangeError) return null; // a damaged block names nothing
    throw error;
  }
}

const ORIENTATION = 0x0112;

/** The block as PNG holds it: from its TIFF header on, with the orientation set to upright. */
export function upright(block: Uint8Array): Uint8Array {
  const exif = (ascii(block, 0, 6) === 'Exif\0\0' ? block.subarray(6) : block).slice();
  try {
    const tiff = openTiff(exif);
    const entry = tiff && readDirectory(exif, tiff.first, tiff.little).get(ORIENTATION);
    if (tiff && entry) viewOf(exif).setUint16(entry.at, 1, tiff.little);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error; // a damaged block travels as it is
  }
  return exif;
}

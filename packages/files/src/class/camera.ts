import { ascii } from '../container/bytes.ts';
import { numberOf, openTiff, readDirectory } from '../container/tiff.ts';

const MAKE = 0x010f;
const MODEL = 0x0110;
const EXIF_IFD = 0x8769;
/** Exposure time, f-number, exposure programme, sensitivity, shutter speed, aperture, focal length. */
const TAKING = [0x829a, 0x829d, 0x8822, 0x8827, 0x9201, 0x9202, 0x920a];

/**
 * Whether the EXIF block says that a camera took the picture: it names a make or model and at least one condition of
 * taking. Painting programs write other fields only. Source: CIPA DC-008 (Exif) sections 4.6.4 and 4.6.5.
 *
 * @param block starting at its TIFF header, or at "Exif\0\0"
 */
export function takenByCamera(block: Uint8Array | null): boolean {
  if (block === null) return false;
  const exif = ascii(block, 0, 6) === 'Exif\0\0' ? block.subarray(6) : block;
  try {
    const tiff = openTiff(exif);
    if (!tiff) return false;
    const first = readDirectory(exif, tiff.first, tiff.little);
    const place = numberOf(exif, first, EXIF_IFD, tiff.little);
    if (place === undefined || !(first.has(MAKE) || first.has(MODEL))) return false;
    const entries = readDirectory(exif, place, tiff.little);
    return TAKING.some((tag) => entries.has(tag));
  } catch (error) {
    if (error instanceof RangeError) return false; // a damaged block says nothing
    throw error;
  }
}

import type { MetadataSettings } from '@halflight/engine';
import { ascii, viewOf } from '../container/bytes.ts';
import { openTiff, readDirectory } from '../container/tiff.ts';
import type { EncodeOptions, Metadata } from '../types.ts';
import { inResource, inWords, writeIptc } from './iptc.ts';
import { editXmp, writeXmp } from './xmp.ts';

/**
 * What goes beside the pixels: the artist's texts, and of what the file said only what was asked for. XMP goes into
 * every format, the older IPTC block into JPEG and TIFF, which alone have a place for it. When places are to go, only
 * our own texts are in that block, since every part of another's may name one.
 */
export function metadataFor(
  own: Metadata,
  settings: MetadataSettings,
  format: EncodeOptions['format'],
): Metadata {
  const { keepOthers, keepLocation } = settings;
  const block = writeIptc(settings, keepOthers && keepLocation ? own.iptc : null);
  const iptc =
    block === null ? null : format === 'jpeg' ? inResource(block) : format === 'tiff' ? inWords(block) : null;
  if (!keepOthers) return { exif: null, xmp: writeXmp(settings), iptc };
  return {
    exif: own.exif && !keepLocation ? withoutPosition(own.exif) : own.exif,
    xmp: own.xmp ? editXmp(own.xmp, settings, keepLocation) : writeXmp(settings),
    iptc,
  };
}

const POSITION = 0x8825;
const SIZES = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8];

/**
 * An EXIF block without its directory of the position: its entry is taken from the first directory and what it held
 * is overwritten. A block that can't be read through is left out. Source: CIPA DC-008, section 4.6.3.
 */
export function withoutPosition(block: Uint8Array): Uint8Array | null {
  const out = block.slice();
  const exif = ascii(out, 0, 6) === 'Exif\0\0' ? out.subarray(6) : out;
  try {
    const tiff = openTiff(exif);
    if (!tiff) return null;
    const { little, first } = tiff;
    const view = viewOf(exif);
    const place = readDirectory(exif, first, little).get(POSITION);
    if (!place) return out;
    const at = view.getUint32(place.at, little);
    for (const { type, count, at: from } of readDirectory(exif, at, little).values())
      exif.fill(0, from, from + (SIZES[type] ?? 1) * count);
    exif.fill(0, at, at + 2 + 12 * view.getUint16(at, little) + 4);
    takeEntry(exif, first, little);
    return out;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** Takes the entry of the position from a directory; those after it and the link to the next move up. */
function takeEntry(exif: Uint8Array, at: number, little: boolean): void {
  const view = viewOf(exif);
  const count = view.getUint16(at, little);
  const end = at + 2 + 12 * count + 4;
  for (let i = 0; i < count; i++) {
    const entry = at + 2 + 12 * i;
    if (view.getUint16(entry, little) !== POSITION) continue;
    exif.copyWithin(entry, entry + 12, end);
    exif.fill(0, end - 12, end);
    view.setUint16(at, count - 1, little);
    return;
  }
}

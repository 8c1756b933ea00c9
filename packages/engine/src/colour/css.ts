import { mapToGamut } from './gamut.ts';
import type { Triple } from './matrix.ts';
import { SRGB } from './rgbSpaces.ts';
import { linearToSrgb } from './transfer.ts';

/** An sRGB colour in CSS hexadecimal notation, of linear sRGB light; mapped into the gamut first. */
export function cssHex(rgb: Triple): string {
  return `#${mapToGamut(rgb, SRGB)
    .map((l) =>
      Math.round(255 * Math.min(1, Math.max(0, linearToSrgb(l))))
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
}

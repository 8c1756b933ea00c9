import { fromSrgb, mapToGamut } from '../colour/gamut.ts';
import { type Triple, transform } from '../colour/matrix.ts';
import type { ColourSpace } from '../colour/space.ts';
import { encode } from '../colour/transfer.ts';
import type { Place } from '../findings/finding.ts';
import type { Raster } from '../views/raster.ts';
import { type Ink, openCanvas } from './canvas.ts';
import { type Box, findSpot } from './spot.ts';

/** Smallest side of a swatch in pixels: pickers average over some pixels and need flat colour. */
export const LEAST_SWATCH = 48;

const LIGHT: Ink = [255, 255, 255, 255];
const DARK: Ink = [0, 0, 0, 255];

/**
 * The guide layer: a transparent picture of the painting's size with the outline of every place to repaint and, inside
 * it, flat squares of the colours to use. Lines are light with a dark rim, so that they show on any ground. The last
 * colour of a place is the one to paint; its square is twice as large as the others.
 *
 * @param places outlines in shares of width and height; places without outline or colours are left out
 * @param space the picture's own colour space, in which the code values are written
 */
export function drawGuide(
  places: readonly Place[],
  picture: { readonly width: number; readonly height: number },
  space: ColourSpace,
): Raster {
  const { width, height } = picture;
  const canvas = openCanvas(width, height, space);
  const long = Math.max(width, height);
  const side = Math.max(LEAST_SWATCH, Math.round(long / 45));
  const stroke = Math.max(2, Math.round(long / 900));
  const shown = places
    .filter((place) => place.outline && place.swatches && place.swatches.length > 0)
    .map((place) => ({
      outline: place.outline!.map((v, i) => v * (i % 2 === 0 ? width : height)),
      swatches: place.swatches!,
    }));
  for (const { outline } of shown) canvas.outline(outline, 3 * stroke, DARK);
  for (const { outline } of shown) canvas.outline(outline, stroke, LIGHT);

  const taken: Box[] = [];
  for (const { outline, swatches } of shown) {
    const small = swatches.slice(0, -1);
    const size = {
      width: side * (2 + Math.ceil(small.length / 2)) + 2 * stroke,
      height: 2 * side + 2 * stroke,
    };
    const box = findSpot(outline, size, picture, taken);
    taken.push(box);
    canvas.rect(box.x, box.y, box.width, box.height, DARK);
    const x = box.x + stroke;
    const y = box.y + stroke;
    canvas.rect(x, y, 2 * side, 2 * side, inkOf(swatches[swatches.length - 1].rgb, space));
    small.forEach((swatch, k) => {
      const left = x + side * (2 + Math.floor(k / 2));
      canvas.rect(left, y + side * (k % 2), side, side, inkOf(swatch.rgb, space));
    });
  }
  return canvas.raster;
}

/** A colour (linear sRGB light) as hex code values of a space; what the space does not hold is mapped into it. */
export function hexIn(rgb: Triple, space: ColourSpace): string {
  const codes = inkOf(rgb, space).slice(0, 3);
  return `#${codes.map((code) => code.toString(16).padStart(2, '0')).join('')}`;
}

/** Code values 0…255 of a colour in a space; what it does not hold is mapped into it. */
function inkOf(rgb: Triple, space: ColourSpace): Ink {
  const own: Triple = transform(fromSrgb(space), mapToGamut(rgb, space));
  const [r, g, b] = own.map((l, c) => Math.round(255 * Math.min(1, Math.max(0, encode(space.curves[c], l)))));
  return [r, g, b, 255];
}

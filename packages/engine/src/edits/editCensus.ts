import type { Census } from '../census/census.ts';
import { fromSrgb } from '../colour/gamut.ts';
import { gamutMapper } from '../colour/gamutMapper.ts';
import { transform } from '../colour/matrix.ts';
import { oklabInto } from '../colour/oklab.ts';
import type { ColourSpace } from '../colour/space.ts';
import type { ReadyRecipe } from './compile.ts';
import type { Survey } from './survey.ts';

/** A channel closer than this to 0 or 1 is written as the first or the last code value of 8 bits. */
const END = 0.5 / 255 / 12.92;

const NO_COVER = new Float64Array(0);

/**
 * What a recipe makes of a census: the same cells with their new colours, mapped into the gamut of `space`.
 *
 * Cells that stay as they are keep their exact counts at the ends; for the others an edited mean at an end counts
 * with its whole share.
 */
export function editCensus(ready: ReadyRecipe, source: Census | Survey, space: ColourSpace): Census {
  const census = 'census' in source ? source.census : source;
  const covers = 'census' in source ? source.covers : NO_COVER;
  const stride = covers.length / Math.max(1, census.count);
  const into = fromSrgb(space);
  const hold = gamutMapper(space);
  const rgb = Float64Array.from(census.rgb);
  const lab = Float64Array.from(census.lab);
  const atFloor = Float64Array.from(census.atFloor);
  const atCeiling = Float64Array.from(census.atCeiling);
  for (let i = 0; i < census.count; i++) {
    if (!ready.edit(rgb, 3 * i, covers, stride * i)) continue;
    hold(rgb, 3 * i);
    const own = transform(into, [rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]]);
    oklabInto(lab, 3 * i, rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]);
    atFloor[i] = Math.min(...own) <= END ? census.share[i] : 0;
    atCeiling[i] = Math.max(...own) >= 1 - 1 / 255 ? census.share[i] : 0;
  }
  return { ...census, rgb, lab, atFloor, atCeiling };
}

import { largestDifference, whereDifferent } from '@halflight/engine';
import type { OpenRaster } from '../openraster/open.ts';

import type { Gathered } from './gather.ts';
import type { LayersHow } from './paint.ts';

/**
 * What the picture that the painting program saved beside its layers tells against ours, in sentences.
 *
 * @param given whether the layers were given one by one, and the picture beside them is a flat export or missing
 */
export async function mergedNotes(
  file: OpenRaster,
  gathered: Pick<Gathered, 'composite'>,
  { codec, limitMegapixels }: LayersHow,
  given = false,
): Promise<string[]> {
  const bytes = await file.merged();
  if (!bytes)
    return given ? [] : ['It holds no picture of all layers together, so that ours could not be compared.'];
  try {
    const { raster } = await codec.decode(bytes, { name: 'mergedimage.png', limitMegapixels });
    if (raster.width !== file.width || raster.height !== file.height)
      return [
        `Its own picture of all layers is ${raster.width} × ${raster.height} and not ${file.width} × ${file.height}; it was not compared.`,
      ];
    const composite = await gathered.composite();
    const most = largestDifference(composite, raster);
    const allowed = composite.depth === 16 && raster.depth === 8 ? 257 : 1;
    if (most <= allowed) return [];
    const { share, left, top, right, bottom } = whereDifferent(composite, raster, allowed);
    return [
      `Its own picture of all layers differs from ours by up to ${Math.round(most)} code values of ${2 ** composite.depth - 1}, on ${share < 0.005 ? 'under 1' : Math.round(100 * share)} % of the picture, between ${left}, ${top} and ${right}, ${bottom}: ${given ? 'a mode or an opacity is not the one it was painted with, or a layer is missing' : 'the program that saved it puts layers together in another way'}.`,
    ];
  } catch {
    return ['Its own picture of all layers can’t be read; it was not compared.'];
  }
}

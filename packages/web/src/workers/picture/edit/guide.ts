import { drawGuide, type Place, type Raster } from '@halflight/engine';

/** The guide layer of these places in the picture's own space; apart, since the first load is for looking. */
export function guideLayer(places: readonly Place[], picture: Raster): Raster {
  return drawGuide(places, picture, picture.space);
}

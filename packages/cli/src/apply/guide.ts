import { examine, OPEN_INTENT, type Place, readingInput } from '@halflight/engine';
import type { Decoded } from '@halflight/files';
import { measure } from '../check/measure.ts';
import { repaintPlaces } from '../guide/places.ts';

/** What the guide layer of a layered file shows: the places to repaint, while nothing is decided. */
export function guidePlaces({ raster, facts }: Decoded): Place[] {
  return repaintPlaces(
    examine(readingInput({ picture: facts, ...measure(raster), intent: OPEN_INTENT, baseline: null })),
  );
}

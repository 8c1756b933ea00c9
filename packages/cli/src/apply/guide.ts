import {
  examine,
  type Intent,
  OPEN_INTENT,
  type Place,
  readingInput,
  repaintPlaces,
} from '@halflight/engine';
import type { Decoded } from '@halflight/files';
import { measure } from '../check/measure.ts';

/** What the guide layer of a layered file shows: the places to repaint; unless told, while nothing is decided. */
export function guidePlaces({ raster, facts }: Decoded, intent: Intent = OPEN_INTENT): Place[] {
  return repaintPlaces(
    examine(readingInput({ picture: facts, ...measure(raster), intent, baseline: null })).findings,
  );
}

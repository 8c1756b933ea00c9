import { makeCloseView } from './average.ts';
import type { Raster } from './raster.ts';
import { MIDDLE_LONG_SIDE, makeWholeView, reduceView } from './resample.ts';
import type { View, Views } from './view.ts';

/** The working sizes of a picture; one pass over its pixels. */
export function makeViews(raster: Raster): Views {
  return viewsOf(makeCloseView(raster));
}

/** The working sizes that belong to a close view. */
export function viewsOf(close: View): Views {
  const middle = reduceView(close, MIDDLE_LONG_SIDE);
  return { close, middle, whole: makeWholeView(middle) };
}

import { makeCloseView } from './average.ts';
import type { Raster } from './raster.ts';
import { makeWholeView } from './resample.ts';
import type { Views } from './view.ts';

/** Both working sizes of a picture; one pass over its pixels. */
export function makeViews(raster: Raster): Views {
  const close = makeCloseView(raster);
  return { close, whole: makeWholeView(close) };
}

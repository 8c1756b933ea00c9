import { type Census, makeViews, type Raster, takeCensus, type Views } from '@halflight/engine';

/** The two things that every reading stands on. */
export interface Measured {
  readonly census: Census;
  readonly views: Views;
}

/** Both on this thread. */
export function measure(raster: Raster): Measured {
  return { census: takeCensus(raster), views: makeViews(raster) };
}

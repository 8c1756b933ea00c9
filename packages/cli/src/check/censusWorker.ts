import { type Census, type Raster, takeCensus } from '@halflight/engine';

export default function census(raster: Raster): Census {
  return takeCensus(raster);
}

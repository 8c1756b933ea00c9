import { linearTables } from '../colour/transfer.ts';
import type { Raster } from '../views/raster.ts';
import { buildCensus, type Census } from './census.ts';
import { collapseCounts, countCodes } from './counts.ts';
import { collapseSums, openSums, type Sums, sumInto, sumsArea } from './sums.ts';

/** From here on 2²⁴ counters pay: they cost a fixed time to open and look through, but less for each pixel. */
const MANY_PIXELS = 2 ** 20;

/**
 * Takes the census of a picture in one pass over its pixels.
 *
 * Opaque pixels of large 8-bit pictures are counted by their exact code values; everything else is summed per cell
 * in linear light, weighted by alpha; fully transparent pixels do not count. Accumulates in integers and Float64:
 * Float32 would stop counting at 2²⁴.
 *
 * @param chosen which pixels to count, one byte a pixel (0 = leave out); all when absent
 */
export function takeCensus(raster: Raster, chosen?: Uint8Array): Census {
  const tables = linearTables(raster.space, raster.depth);
  const pixels = raster.width * raster.height;
  const builder = buildCensus();
  let sums: Sums | null = null;
  const sum = (from: number, to: number): void => {
    sums ??= openSums(raster, tables, chosen);
    sumInto(sums, from, to, chosen);
  };
  const countable = raster.depth === 8 && pixels >= MANY_PIXELS;
  const counts = countable ? countCodes(raster, chosen, sum) : null;
  if (!counts) sum(0, pixels);
  const area = (counts?.area ?? 0) + (sums ? sumsArea(sums) : 0);
  if (counts) collapseCounts(counts, tables, raster.space.toSrgb, area, builder);
  if (sums) collapseSums(sums, area, builder);
  return builder.finish();
}

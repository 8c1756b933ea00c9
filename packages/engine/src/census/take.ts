import { linearTables } from '../colour/transfer.ts';
import type { Raster } from '../views/raster.ts';
import { buildCensus, type Census } from './census.ts';
import { collapseCounts, countCodes } from './counts.ts';
import { collapseSums, openSums, type Sums, sumInto } from './sums.ts';

/**
 * Takes the census of a picture in one pass over its pixels.
 *
 * Opaque 8-bit pixels are counted by their exact code values, everything else (16 bit, partly transparent) is
 * summed per cell in linear light, weighted by alpha; fully transparent pixels do not count. Accumulates in
 * integers and Float64: Float32 would stop counting at 2²⁴.
 *
 * @param chosen which pixels to count, one byte a pixel (0 = leave out); all when absent
 */
export function takeCensus(raster: Raster, chosen?: Uint8Array): Census {
  const tables = linearTables(raster.space, raster.depth);
  let sums: Sums | null = null;
  const rest = (): Sums => {
    sums ??= openSums(raster, tables);
    return sums;
  };
  let counts: Uint32Array | null = null;
  if (raster.depth === 8)
    counts = countCodes(raster, chosen, (from, to) => sumInto(rest(), from, to, chosen));
  else sumInto(rest(), 0, raster.width * raster.height, chosen);

  const builder = buildCensus();
  const total = raster.width * raster.height;
  if (counts) collapseCounts(counts, tables, raster.space.toSrgb, total, builder);
  if (sums) collapseSums(sums, total, builder);
  return builder.finish();
}

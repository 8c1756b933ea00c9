import type { Raster } from '../views/raster.ts';

/**
 * What turns one flat picture into another, as a layer: the second picture where they differ, transparent elsewhere.
 * Laid over the first as a normal layer it gives the second exactly.
 *
 * @param under the flat picture without
 * @param over the flat picture with; its depth and colour space are those of the layer
 * @returns 4 channels, in the size of both
 * @throws RangeError when sizes differ or the result could not be laid over, as a place is transparent in `over`
 */
export function differenceLayer(under: Raster, over: Raster): Raster {
  const { width, height, depth, space } = over;
  if (under.width !== width || under.height !== height)
    throw new RangeError(
      `one is ${under.width} × ${under.height} and the other ${width} × ${height} pixels large`,
    );
  const full = 2 ** depth - 1;
  const scale = full / (2 ** under.depth - 1);
  const data = new (depth === 8 ? Uint8Array : Uint16Array)(4 * width * height);
  for (let p = 0; p < width * height; p++) {
    const i = over.channels * p;
    const j = under.channels * p;
    const shown = over.channels === 4 ? over.data[i + 3] : full;
    const below = under.channels === 4 ? Math.round(under.data[j + 3] * scale) : full;
    let differs = shown !== below;
    for (let c = 0; c < 3 && shown > 0; c++)
      if (over.data[i + c] !== Math.round(under.data[j + c] * scale)) differs = true;
    if (!differs) continue;
    if (shown !== full) throw new RangeError('it is transparent where the two differ');
    for (let c = 0; c < 3; c++) data[4 * p + c] = over.data[i + c];
    data[4 * p + 3] = full;
  }
  return { width, height, channels: 4, depth, data, space };
}

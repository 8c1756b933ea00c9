import { extname } from 'node:path';
import { type LayersReading, type PictureFacts, type Raster, readLayers } from '@halflight/engine';
import type { Codec } from '@halflight/files';
import { gather } from '@halflight/files/layers';
import { readPicture } from '@halflight/files/node';
import { openLayered } from './open.ts';

/** A picture as it is seen, and what its layers are worth. */
export interface WholePicture {
  readonly raster: Raster;
  readonly facts: PictureFacts;
  readonly notes: readonly string[];
  /** Null for a picture without layers. */
  readonly layers: LayersReading | null;
}

/**
 * Reads a picture of any kind; the layers of a layered one (OpenRaster) are put together and weighed.
 *
 * @throws FileTrouble
 */
export async function readWhole(path: string, codec: Codec, limitMegapixels: number): Promise<WholePicture> {
  if (extname(path).toLowerCase() !== '.ora') {
    const { raster, facts, notes } = await readPicture(path, { codec, limitMegapixels });
    return { raster, facts, notes, layers: null };
  }
  const file = await openLayered(path, limitMegapixels);
  const gathered = await gather(file, { codec, limitMegapixels, along: true });
  const { stack, composite, depth, space, profile, notes } = gathered;
  const { name, width, height } = file;
  const facts = { name, width, height, depth, profile: space.name, tagged: profile !== null };
  return { raster: await composite(), facts, notes, layers: readLayers(stack, depth, space) };
}

import { basename } from 'node:path';
import {
  CLOSE_PIXELS,
  differenceLayer,
  type LayerReading,
  type PaintedLayer,
  type Raster,
  readLayers,
  reduceLayer,
  weighingSize,
} from '@halflight/engine';
import { type Codec, FileTrouble } from '@halflight/files';
import { readPicture } from '@halflight/files/node';
import { WrongUse } from '../trouble.ts';

/**
 * What a layer is worth, from two flat pictures: with it and without it.
 *
 * @throws FileTrouble when they can't be read or can't be compared
 */
export async function readPair(
  paths: readonly string[],
  options: { readonly without: string; readonly limit: number },
  codec: Codec,
): Promise<LayerReading> {
  const [path] = paths;
  if (paths.length > 1)
    throw new WrongUse('--without goes with one flat picture: the one that shows the layer.');
  const how = { codec, limitMegapixels: options.limit };
  const { raster: over } = await readPicture(path, how);
  const { raster: under } = await readPicture(options.without, how);
  const [name, other] = [basename(path), basename(options.without)];
  if (over.space.name !== under.space.name)
    throw uncomparable(name, other, `one is in ${over.space.name}, the other in ${under.space.name}`);
  try {
    return pairReading(name, under, differenceLayer(under, over));
  } catch (error) {
    if (error instanceof RangeError) throw uncomparable(name, other, error.message);
    throw error;
  }
}

function pairReading(name: string, under: Raster, difference: Raster): LayerReading {
  const small = weighingSize(under.width, under.height, CLOSE_PIXELS);
  const layer = (path: string, raster: Raster): PaintedLayer => ({
    kind: 'layer',
    path,
    name: path,
    visible: true,
    blend: 'normal',
    operator: 'source-over',
    opacity: 1,
    ...reduceLayer({ raster, x: 0, y: 0 }, under, small),
  });
  const nodes = [layer('without', under), layer(name, difference)];
  return readLayers({ ...small, nodes }, difference.depth, difference.space).layers[1];
}

function uncomparable(name: string, other: string, why: string): FileTrouble {
  return new FileTrouble(
    'format',
    `“${name}” and “${other}” can’t be compared: ${why}.`,
    'Export both flat and opaque, in one size and colour space.',
  );
}

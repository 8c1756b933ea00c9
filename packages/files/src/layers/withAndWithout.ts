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
import { FileTrouble } from '../trouble.ts';

/** A flat picture and what its file is called. */
export interface NamedPicture {
  readonly name: string;
  readonly raster: Raster;
}

/**
 * What a layer is worth, from two flat pictures: with it and without it.
 *
 * @returns the reading of the layer, under the name of the picture that shows it
 * @throws FileTrouble when they can't be compared: sizes or colour spaces differ, or one is transparent where they do
 */
export function readPair(over: NamedPicture, under: NamedPicture): LayerReading {
  const [one, other] = [over.raster.space.name, under.raster.space.name];
  if (one !== other) throw uncomparable(over.name, under.name, `one is in ${one}, the other in ${other}`);
  let difference: Raster;
  try {
    difference = differenceLayer(under.raster, over.raster);
  } catch (error) {
    if (error instanceof RangeError) throw uncomparable(over.name, under.name, error.message);
    throw error;
  }
  const small = weighingSize(difference.width, difference.height, CLOSE_PIXELS);
  const layer = (path: string, raster: Raster): PaintedLayer => ({
    kind: 'layer',
    path,
    name: path,
    visible: true,
    blend: 'normal',
    operator: 'source-over',
    opacity: 1,
    ...reduceLayer({ raster, x: 0, y: 0 }, difference, small),
  });
  const nodes = [layer('without', under.raster), layer(over.name, difference)];
  return readLayers({ ...small, nodes }, difference.depth, difference.space).layers[1];
}

function uncomparable(name: string, other: string, why: string): FileTrouble {
  return new FileTrouble(
    'format',
    `“${name}” and “${other}” can’t be compared: ${why}.`,
    'Export both flat and opaque, in one size and colour space.',
  );
}

import { SRGB } from '../../src/colour/rgbSpaces.ts';
import type { Raster } from '../../src/views/raster.ts';

/** A picture whose channels (0…1) are told place by place. */
export function raster(
  width: number,
  height: number,
  at: (x: number, y: number) => readonly number[],
  space = SRGB,
  depth: 8 | 16 = 16,
): Raster {
  const channels = at(0, 0).length as 3 | 4;
  const max = 2 ** depth - 1;
  const data =
    depth === 8 ? new Uint8Array(width * height * channels) : new Uint16Array(width * height * channels);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++) for (const v of at(x, y)) data[i++] = Math.round(max * v);
  return { width, height, channels, depth, data, space };
}

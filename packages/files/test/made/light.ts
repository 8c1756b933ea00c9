import { decode, type Raster, type Triple, transform } from '@halflight/engine';

/** Linear light in sRGB primaries of pixel `i`, by the raster's own space. */
export function linearAt({ data, channels, depth, space }: Raster, i: number): Triple {
  const top = 2 ** depth - 1;
  const code = (c: number) => decode(space.curves[c], data[i * channels + c] / top);
  return transform(space.toSrgb, [code(0), code(1), code(2)]);
}

/** Largest difference of any channel. */
export function farthest(a: readonly number[], b: readonly number[]): number {
  return Math.max(...a.map((v, i) => Math.abs(v - b[i])));
}

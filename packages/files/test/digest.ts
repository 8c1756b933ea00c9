import { decode, transform } from '@halflight/engine';
import type { Decoded } from '@halflight/files';

/** A decoded picture in few numbers, to compare codecs across processes: equal digests mean equal pictures. */
export function digest({ raster, facts, format, profile, notes }: Decoded) {
  const { width, height, channels, depth, data, space } = raster;
  const top = 2 ** depth - 1;
  const at = (i: number) =>
    transform(
      space.toSrgb,
      [0, 1, 2].map((c) => decode(space.curves[c], data[i + c] / top)) as [number, number, number],
    );
  return {
    width,
    height,
    channels,
    depth,
    format,
    facts,
    notes,
    space: space.name,
    profile: profile === null ? null : fnv(profile),
    pixels: fnv(data),
    /** Linear light in sRGB primaries of the first pixel. */
    first: at(0).map((v) => Number(v.toFixed(9))),
  };
}

/** FNV-1a, 32 bit, over the values. */
function fnv(values: Uint8Array | Uint16Array): number {
  let hash = 0x811c9dc5;
  for (const v of values) hash = Math.imul(hash ^ v, 0x01000193) >>> 0;
  return hash;
}

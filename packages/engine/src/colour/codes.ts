import { linearToSrgb } from './transfer.ts';

/** Intervals of light, each with the lowest code that occurs in it. */
const INTERVALS = 4096;

const exact = (light: number): number => Math.round(255 * linearToSrgb(light));

/** The least light that gives a code, found to the last bit by halving. */
function least(code: number): number {
  let [below, at] = [0, 1];
  for (;;) {
    const middle = (below + at) / 2;
    if (middle <= below || middle >= at) return at;
    if (exact(middle) >= code) at = middle;
    else below = middle;
  }
}

/** From here on a code is reached; nothing reaches the last one. */
const FROM = Float64Array.from({ length: 257 }, (_, code) =>
  code === 0 ? Number.NEGATIVE_INFINITY : code === 256 ? Number.POSITIVE_INFINITY : least(code),
);
const LOWEST = Uint8Array.from({ length: INTERVALS + 1 }, (_, k) => exact(k / INTERVALS));

/**
 * The 8-bit sRGB code of linear light, held to 0…1: what rounding 255 × `linearToSrgb` gives, without a power for each
 * value.
 */
export function srgbCode(light: number): number {
  if (!(light > 0)) return 0;
  if (light >= 1) return 255;
  let code = LOWEST[(light * INTERVALS) | 0];
  while (light >= FROM[code + 1]) code++;
  return code;
}

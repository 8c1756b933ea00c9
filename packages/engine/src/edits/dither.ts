// Ordered dither of 8 × 8 places: Bayer 1973, "An optimum method for two-level rendition of continuous-tone pictures".
const ORDER = [0, 2, 3, 1];

/** Threshold −0.5…+0.5 of a place, in code values: added before rounding, so that flat gradients don't band. */
export function ditherAt(x: number, y: number): number {
  let value = 0;
  for (let bit = 0; bit < 3; bit++) {
    const quad = ORDER[(((y >> bit) & 1) << 1) | ((x >> bit) & 1)];
    value = 4 * value + quad;
  }
  return (value + 0.5) / 64 - 0.5;
}

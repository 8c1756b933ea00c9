/**
 * How code values become light: a curve for each channel, then a matrix.
 *
 * Every picture reaches the engine in such a space. Table profiles (CMYK, scanners) are brought to one by the
 * colour-management library when the file is decoded.
 */
export interface ColourSpace {
  /** Name in words: "sRGB", "Display P3", or the description in the profile. */
  readonly name: string;
  /** Curves of red, green and blue. */
  readonly curves: readonly [Curve, Curve, Curve];
  /** Linear light of this space to linear light in sRGB primaries, D65, row-major 3 × 3, unclipped. */
  readonly toSrgb: readonly number[];
}

/**
 * The decoding curve of a channel, from code value 0…1 to linear light 0…1.
 *
 * `table` holds evenly spaced samples (first at 0, last at 1), rising, read by linear interpolation.
 */
export type Curve =
  | { readonly kind: 'srgb' }
  | { readonly kind: 'power'; readonly exponent: number }
  | { readonly kind: 'table'; readonly values: Float64Array };

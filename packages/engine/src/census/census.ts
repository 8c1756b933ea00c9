/**
 * The picture's colours without their places.
 *
 * Each of `count` cells stands for the pixels whose 6-bit code values agree; a cell that would hold much of
 * the picture is split finer. Sums are kept per cell, so that `rgb` is the exact mean.
 */
export interface Census {
  readonly count: number;
  /** Area of each cell as a share of the whole (weighted by alpha); sums to 1, or is empty for a fully transparent picture. */
  readonly share: Float64Array;
  /** Mean linear light in sRGB primaries, unclipped, `count × 3`. */
  readonly rgb: Float64Array;
  /** OKLab of `rgb`, `count × 3`. */
  readonly lab: Float64Array;
  /** Share of the picture in each cell that has a channel exactly at 0 in the picture's own space. */
  readonly atFloor: Float64Array;
  /** Share of the picture in each cell that has a channel exactly at its largest code value. */
  readonly atCeiling: Float64Array;
  /** Sum of alpha over the pixels, in pixels. */
  readonly area: number;
}

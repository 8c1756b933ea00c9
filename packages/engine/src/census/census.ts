import { oklabInto } from '../colour/oklab.ts';

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
  /** Share of the picture in each cell that has a channel at 0 in the picture's own space (to 8 bits), counted exactly. */
  readonly atFloor: Float64Array;
  /** Share of the picture in each cell that has a channel at its largest code value (to 8 bits), counted exactly. */
  readonly atCeiling: Float64Array;
  /** Sum of alpha over the pixels, in pixels. */
  readonly area: number;
}

/** Grows a census cell by cell. Weights are in pixels until `finish` makes shares of them. */
export interface CensusBuilder {
  /** Adds a cell: its weight, the weight of its pixels at the floor and the ceiling, and its mean linear sRGB light. */
  add(weight: number, floor: number, ceiling: number, r: number, g: number, b: number): void;
  finish(): Census;
}

export function buildCensus(): CensusBuilder {
  let capacity = 16384;
  let count = 0;
  let area = 0;
  // weight, floor, ceiling, r, g, b
  let rows = new Float64Array(capacity * 6);
  return {
    add(weight, floor, ceiling, r, g, b) {
      if (count === capacity) {
        capacity *= 2;
        const grown = new Float64Array(capacity * 6);
        grown.set(rows);
        rows = grown;
      }
      const at = 6 * count++;
      rows[at] = weight;
      rows[at + 1] = floor;
      rows[at + 2] = ceiling;
      rows[at + 3] = r;
      rows[at + 4] = g;
      rows[at + 5] = b;
      area += weight;
    },
    finish() {
      const share = new Float64Array(count);
      const atFloor = new Float64Array(count);
      const atCeiling = new Float64Array(count);
      const rgb = new Float64Array(3 * count);
      const lab = new Float64Array(3 * count);
      for (let i = 0; i < count; i++) {
        const at = 6 * i;
        share[i] = rows[at] / area;
        atFloor[i] = rows[at + 1] / area;
        atCeiling[i] = rows[at + 2] / area;
        rgb.set(rows.subarray(at + 3, at + 6), 3 * i);
        oklabInto(lab, 3 * i, rows[at + 3], rows[at + 4], rows[at + 5]);
      }
      return { count, share, rgb, lab, atFloor, atCeiling, area };
    },
  };
}

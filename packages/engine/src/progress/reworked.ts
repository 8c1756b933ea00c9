import { boxMean } from '../areas/boxFilter.ts';
import { type Plane, planeOf } from '../numbers/plane.ts';

/** Radius of the neighbourhood in which contrast may change as one, as a share of the long side: our default. */
const NEAR = 1 / 30;
/** Change of L* that is no stroke but the rounding of a file: half a step of 8 bit in the middle tones. */
const ROUNDING = 0.2;

/**
 * How much of one octave of detail was drawn anew, place by place, in L*.
 *
 * A veil, a glaze or a curve makes the same strokes weaker or stronger; that is seen from afar and cost no strokes.
 * So what a common gain of the neighbourhood explains is left out, looked at from both sides: strokes that were
 * added are not in the earlier version at any gain, strokes that were removed not in the later one. The gains are
 * those of least squares in a square window.
 *
 * @param earlier detail of the earlier version (a level of the Laplacian pyramid), L*
 * @param later the same level of the later one, on the same grid
 */
export function reworkedDetail(earlier: Plane, later: Plane): Plane {
  const { width, height } = earlier;
  const radius = Math.max(2, Math.round(NEAR * Math.max(width, height)));
  const a = earlier.data;
  const b = later.data;
  const mean = (of: (p: number) => number): Float32Array => {
    const { data } = planeOf(width, height, of);
    boxMean(data, width, height, radius, data);
    return data;
  };
  const aa = mean((p) => a[p] * a[p]);
  const bb = mean((p) => b[p] * b[p]);
  const ab = mean((p) => a[p] * b[p]);
  return planeOf(width, height, (p) => {
    // Detail that turned into its opposite was drawn anew: no gain below nothing.
    const common = Math.max(0, ab[p]);
    const added = aa[p] > 0 ? Math.abs(b[p] - (common / aa[p]) * a[p]) : Math.abs(b[p]);
    const removed = bb[p] > 0 ? Math.abs(a[p] - (common / bb[p]) * b[p]) : Math.abs(a[p]);
    // Never more than what is different here: a neighbour's change of gain is no work in this place.
    return Math.max(0, Math.min(Math.max(added, removed), Math.abs(b[p] - a[p])) - ROUNDING);
  });
}

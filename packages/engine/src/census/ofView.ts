import type { Field, View } from '../views/view.ts';
import { buildCensus, type Census } from './census.ts';

const BITS = 6;
const TOP = 2 ** BITS - 1;

/**
 * The census of a part of a view: what is left when some of its places are left out.
 *
 * Cells are 6-bit steps of the root of linear sRGB light (held at 0 and 1, where only the cell is held, never the
 * mean). A view knows no code values, so that nothing counts as standing at a limit.
 *
 * @param leftOut 1 = left out, of the view's size
 */
export function censusOfView(view: View, leftOut: Field | null): Census {
  const { rgb, alpha } = view;
  const cellOf = new Int32Array(2 ** (3 * BITS)).fill(-1);
  const code = (l: number): number => Math.round(TOP * Math.sqrt(Math.min(1, Math.max(0, l))));
  let sums = new Float64Array(4 * 4096);
  let used = 0;
  for (let p = 0; p < view.width * view.height; p++) {
    const weight = (alpha ? alpha[p] : 1) * (leftOut ? 1 - leftOut.data[p] : 1);
    if (!(weight > 0)) continue;
    const r = rgb[3 * p];
    const g = rgb[3 * p + 1];
    const b = rgb[3 * p + 2];
    const cell = (code(r) << (2 * BITS)) | (code(g) << BITS) | code(b);
    let at = cellOf[cell];
    if (at < 0) {
      at = 4 * used++;
      cellOf[cell] = at;
      if (at === sums.length) {
        const grown = new Float64Array(2 * sums.length);
        grown.set(sums);
        sums = grown;
      }
    }
    sums[at] += weight;
    sums[at + 1] += weight * r;
    sums[at + 2] += weight * g;
    sums[at + 3] += weight * b;
  }
  const builder = buildCensus();
  // Pixels of the picture, not of the view.
  const pixels = 1 / (view.scale * view.scale);
  for (let i = 0; i < used; i++) {
    const w = sums[4 * i];
    builder.add(w * pixels, 0, 0, sums[4 * i + 1] / w, sums[4 * i + 2] / w, sums[4 * i + 3] / w);
  }
  return builder.finish();
}

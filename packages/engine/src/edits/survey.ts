import { type GuideFit, rowsAt } from '../areas/guidedFilter.ts';
import { guideOf } from '../areas/rasterise.ts';
import { buildCensus, type Census } from '../census/census.ts';
import { linearToSrgb } from '../colour/transfer.ts';
import { reduceView } from '../views/resample.ts';
import type { View } from '../views/view.ts';

/** Colours of a picture together with how much each area covers them. */
export interface Survey {
  readonly census: Census;
  /** Mean cover of each area over each cell, `count × areas`. */
  readonly covers: Float64Array;
}

/** Long side of the copy that is surveyed: fine enough for shares, small enough for every drag of a value. */
const SURVEY_LONG_SIDE = 480;
/** Covers are told apart in so many steps; their mean is kept exactly. */
const COVER_STEPS = 4;

/** Surveys a view: a census has no place, so that colours are kept apart by what covers them. */
export function takeSurvey(close: View, areas: readonly GuideFit[]): Survey {
  const view = reduceView(close, SURVEY_LONG_SIDE);
  const guide = guideOf(view);
  const rows = areas.map((fit) => rowsAt(fit, view.width, view.height));
  const lines = areas.map(() => new Float32Array(view.width));
  const cells = new Map<number, number[]>();
  for (let y = 0; y < view.height; y++) {
    const row = guide.subarray(3 * y * view.width, 3 * (y + 1) * view.width);
    for (let k = 0; k < rows.length; k++) rows[k](row, y, lines[k]);
    for (let x = 0; x < view.width; x++) {
      const p = y * view.width + x;
      const weight = view.alpha ? view.alpha[p] : 1;
      if (weight === 0) continue;
      let key = 0;
      for (let c = 0; c < 3; c++) key = key * 64 + codeOf(view.rgb[3 * p + c]);
      for (const line of lines) key = key * (COVER_STEPS + 1) + Math.ceil(line[x] * COVER_STEPS);
      let cell = cells.get(key);
      if (!cell) {
        cell = new Array(4 + areas.length).fill(0);
        cells.set(key, cell);
      }
      cell[0] += weight;
      for (let c = 0; c < 3; c++) cell[1 + c] += weight * view.rgb[3 * p + c];
      for (let k = 0; k < lines.length; k++) cell[4 + k] += weight * lines[k][x];
    }
  }
  const builder = buildCensus();
  const covers = new Float64Array(cells.size * areas.length);
  let at = 0;
  for (const cell of cells.values()) {
    const weight = cell[0];
    builder.add(weight, 0, 0, cell[1] / weight, cell[2] / weight, cell[3] / weight);
    for (let k = 0; k < areas.length; k++) covers[at++] = cell[4 + k] / weight;
  }
  return { census: builder.finish(), covers };
}

/** Six bits of the sRGB code value, held to 0…1. */
function codeOf(light: number): number {
  return Math.min(63, Math.max(0, Math.floor(64 * linearToSrgb(light))));
}

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

/**
 * Surveys a view: a census has no place, so that colours are kept apart by what covers them.
 *
 * @param census of the picture itself: its exact colours and counts then stay, and only their covers are taken from
 * the view
 */
export function takeSurvey(close: View, areas: readonly GuideFit[], census?: Census): Survey {
  const seen = surveyView(close, areas);
  return census ? spread(census, seen, areas.length) : seen;
}

function surveyView(close: View, areas: readonly GuideFit[]): Survey {
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

/** Bits of the code values by which a colour of the census is looked up in the view: as alike as there is one. */
const LIKENESS = [6, 5, 4, 3];

/** Splits every colour of a census by the covers that its like has in the view. */
function spread(census: Census, { census: seen, covers }: Survey, stride: number): Survey {
  const keyAt = (rgb: Float64Array, i: number, bits: number): number => {
    let key = 0;
    for (let c = 0; c < 3; c++) key = (key << bits) | (codeOf(rgb[3 * i + c]) >> (6 - bits));
    return key;
  };
  const tables = LIKENESS.map((bits) => {
    const table = new Map<number, number[]>();
    for (let i = 0; i < seen.count; i++) {
      const key = keyAt(seen.rgb, i, bits);
      const cells = table.get(key);
      if (cells) cells.push(i);
      else table.set(key, [i]);
    }
    return table;
  });
  const everything = [...Array(seen.count).keys()];
  const parts: { cell: number; part: number; of: number }[] = [];
  for (let i = 0; i < census.count; i++) {
    let like: readonly number[] | undefined;
    for (let t = 0; t < tables.length && !like; t++) like = tables[t].get(keyAt(census.rgb, i, LIKENESS[t]));
    for (const [part, of] of byCover(like ?? everything, seen.share, covers, stride))
      parts.push({ cell: i, part, of });
  }
  const count = parts.length;
  const out = {
    count,
    share: new Float64Array(count),
    rgb: new Float64Array(3 * count),
    lab: new Float64Array(3 * count),
    atFloor: new Float64Array(count),
    atCeiling: new Float64Array(count),
    area: census.area,
  };
  const own = new Float64Array(count * stride);
  parts.forEach(({ cell, part, of }, k) => {
    out.share[k] = part * census.share[cell];
    out.atFloor[k] = part * census.atFloor[cell];
    out.atCeiling[k] = part * census.atCeiling[cell];
    out.rgb.set(census.rgb.subarray(3 * cell, 3 * cell + 3), 3 * k);
    out.lab.set(census.lab.subarray(3 * cell, 3 * cell + 3), 3 * k);
    own.set(covers.subarray(of * stride, (of + 1) * stride), k * stride);
  });
  return { census: out, covers: own };
}

/** Cells joined by how they are covered: the share of each kind among them, and a cell that stands for it. */
function byCover(
  cells: readonly number[],
  share: Float64Array,
  covers: Float64Array,
  stride: number,
): [part: number, cell: number][] {
  const kinds = new Map<number, { weight: number; cell: number }>();
  let all = 0;
  for (const i of cells) {
    let key = 0;
    for (let k = 0; k < stride; k++)
      key = key * (COVER_STEPS + 1) + Math.ceil(COVER_STEPS * covers[i * stride + k]);
    const kind = kinds.get(key);
    all += share[i];
    if (!kind) kinds.set(key, { weight: share[i], cell: i });
    else {
      if (share[i] > share[kind.cell]) kind.cell = i;
      kind.weight += share[i];
    }
  }
  return [...kinds.values()].map(({ weight, cell }) => [weight / all, cell]);
}

/** Six bits of the sRGB code value, held to 0…1. */
function codeOf(light: number): number {
  return Math.min(63, Math.max(0, Math.floor(64 * linearToSrgb(light))));
}

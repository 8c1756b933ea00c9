import type { Area } from '../areas/area.ts';
import { rowsAt } from '../areas/guidedFilter.ts';
import { fillOutlines } from '../areas/outline.ts';
import { fitArea, guideOf } from '../areas/rasterise.ts';
import type { Census } from '../census/census.ts';
import { oklabInto } from '../colour/oklab.ts';
import type { ColourSpace } from '../colour/space.ts';
import { takeSurvey } from '../edits/survey.ts';
import type { FocusIntent, Intent } from '../intent/intent.ts';
import { endFinder } from '../readings/headroom/ends.ts';
import { focusMasks } from '../readings/value/focus.ts';
import { reduceView } from '../views/resample.ts';
import type { View, Views } from '../views/view.ts';
import type { WholeColours } from './measured.ts';

/** Colours of a picture joined to a few hundred, on which a recipe can be tried a thousand times. */
export interface Sample {
  readonly colours: Census;
  /** Cover of each area over each colour, `count × areas`. */
  readonly covers: Float64Array;
  /** The same of the picture seen from a step back. */
  readonly whole: WholeColours;
  readonly wholeCovers: Float64Array;
}

/** Most colours in a sample: enough for shares of a hundredth, few enough for a thousand tries a second. */
const MOST = 500;
const MOST_WHOLE = 160;
/** Width of the first cells in OKLab, and what they grow by while there are too many. */
const FIRST = 0.02;
const GROWS = 1.25;
/** Covers are told apart in so many steps; their mean is kept exactly. */
const COVER_STEPS = 4;
/** Long side of the copy on which areas are tied to edges: shares need no more. */
const AREA_LONG_SIDE = 480;

/** Joins the colours of a picture; with areas, colours are kept apart by what covers them. */
export function takeSample(
  census: Census,
  views: Views,
  areas: readonly Area[],
  intent: Intent,
  space: ColourSpace,
): Sample {
  const small = areas.length > 0 ? reduceView(views.middle, AREA_LONG_SIDE) : views.whole;
  const fits = areas.map((area) => fitArea(area, small)!);
  const survey =
    areas.length > 0 ? takeSurvey(views.middle, fits, census) : { census, covers: new Float64Array(0) };
  const end = endFinder(space);
  const { rgb, lab } = survey.census;
  // What stands at an end is kept apart from what does not: the shares at the ends stay exact.
  const { share, atFloor, atCeiling } = survey.census;
  const endOf = (i: number): number => {
    const at = ENDS.indexOf(end(rgb, lab, 3 * i));
    return at === 0 && atFloor[i] + atCeiling[i] > 0.5 * share[i] ? LIMIT : at;
  };
  const ends = (i: number): number => {
    const at = endOf(i);
    // How far each has to be moved tells them apart: in one cell they would all leave the end together.
    const depth = at === 1 ? lab[3 * i] / DEPTH : at === 2 ? lab[3 * i] / (DEPTH / 4) : 0;
    return at + (LIMIT + 1) * Math.round(depth);
  };
  const colours = join(survey.census, survey.covers, areas.length, ends, MOST, (i) => endOf(i) > 0);
  const seen = wholeColours(
    views.whole,
    fits.map((fit) => rowsAt(fit, views.whole.width, views.whole.height)),
    intent.focus,
  );
  const whole = join(
    seen.census,
    seen.covers,
    seen.stride,
    () => 0,
    MOST_WHOLE,
    () => false,
  );
  return {
    colours: colours.census,
    covers: colours.covers,
    whole: {
      count: whole.census.count,
      rgb: whole.census.rgb,
      weight: whole.census.share,
      focus: intent.focus
        ? {
            inside: column(whole.covers, seen.stride, areas.length),
            around: column(whole.covers, seen.stride, areas.length + 1),
          }
        : null,
    },
    wholeCovers: columns(whole.covers, seen.stride, areas.length),
  };
}

const ENDS = [null, 'dark', 'light', 'colour'];
/** A colour that is at no end by itself but has a channel at its limit. */
const LIMIT = ENDS.length;
/** Steps of OKLab lightness by which closed darks are kept apart; closed lights lie four times as close. */
const DEPTH = 0.012;

/** The places of a whole view as they are, with those of the focus. */
export function wholeOf(view: View, focus: FocusIntent | undefined): WholeColours {
  const { census, covers, stride } = wholeColours(view, [], focus);
  return {
    count: census.count,
    rgb: census.rgb,
    weight: census.share,
    focus: focus ? { inside: column(covers, stride, 0), around: column(covers, stride, 1) } : null,
  };
}

/** The whole view's places as cells; the last two columns of the covers are the focus and the ring around it. */
function wholeColours(
  view: View,
  rows: readonly ReturnType<typeof rowsAt>[],
  focus: FocusIntent | undefined,
): { census: Census; covers: Float64Array; stride: number } {
  const { width, height, alpha } = view;
  const count = width * height;
  const guide = guideOf(view);
  const stride = rows.length + (focus ? 2 : 0);
  const covers = new Float64Array(count * stride);
  const line = new Float32Array(width);
  for (let y = 0; y < height; y++)
    for (let k = 0; k < rows.length; k++) {
      rows[k](guide.subarray(3 * y * width, 3 * (y + 1) * width), y, line);
      for (let x = 0; x < width; x++) covers[(y * width + x) * stride + k] = line[x];
    }
  const masks = focus && focusMasks(fillOutlines(focus.outlines, width, height).data, width, height);
  if (masks)
    for (let p = 0; p < count; p++) {
      covers[p * stride + rows.length] = masks.inside[p];
      covers[p * stride + rows.length + 1] = masks.around[p];
    }
  const share = Float64Array.from({ length: count }, (_, p) => (alpha ? alpha[p] : 1));
  const none = new Float64Array(count);
  return {
    census: {
      count,
      share,
      rgb: Float64Array.from(view.rgb),
      lab: Float64Array.from(guide),
      atFloor: none,
      atCeiling: none,
      area: count,
    },
    covers,
    stride,
  };
}

/**
 * Joins near colours of the same kind and cover until at most `most` are left.
 *
 * @param whole true for colours that stand for their like as they are: the mean of colours at the edge of the gamut lies
 * inside it
 */
function join(
  census: Census,
  covers: Float64Array,
  stride: number,
  kind: (cell: number) => number,
  most: number,
  whole: (cell: number) => boolean,
): { census: Census; covers: Float64Array } {
  const { count, lab } = census;
  const fixed = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let key = kind(i);
    for (let k = 0; k < stride; k++)
      key = key * (COVER_STEPS + 1) + Math.round(COVER_STEPS * covers[i * stride + k]);
    fixed[i] = key;
  }
  const group = new Int32Array(count);
  let groups = 0;
  for (let width = FIRST, tries = 0; tries < 12; width *= GROWS, tries++) {
    const ids = new Map<number, number>();
    const code = (v: number): number => Math.round(v / width) + 128;
    for (let i = 0; i < count; i++) {
      const key =
        ((fixed[i] * 256 + code(lab[3 * i])) * 256 + code(lab[3 * i + 1])) * 256 + code(lab[3 * i + 2]);
      let id = ids.get(key);
      if (id === undefined) {
        id = ids.size;
        ids.set(key, id);
      }
      group[i] = id;
    }
    groups = ids.size;
    if (groups <= most) break;
  }
  return sums(census, covers, stride, group, groups, whole);
}

function sums(
  { count, share, rgb, atFloor, atCeiling, area }: Census,
  covers: Float64Array,
  stride: number,
  group: Int32Array,
  groups: number,
  whole: (cell: number) => boolean,
): { census: Census; covers: Float64Array } {
  const out = {
    count: groups,
    share: new Float64Array(groups),
    rgb: new Float64Array(3 * groups),
    lab: new Float64Array(3 * groups),
    atFloor: new Float64Array(groups),
    atCeiling: new Float64Array(groups),
    area,
  };
  const joined = new Float64Array(groups * stride);
  const heaviest = new Int32Array(groups).fill(-1);
  for (let i = 0; i < count; i++) {
    const g = group[i];
    if (heaviest[g] < 0 || share[i] > share[heaviest[g]]) heaviest[g] = i;
    out.share[g] += share[i];
    out.atFloor[g] += atFloor[i];
    out.atCeiling[g] += atCeiling[i];
    for (let c = 0; c < 3; c++) out.rgb[3 * g + c] += share[i] * rgb[3 * i + c];
    for (let k = 0; k < stride; k++) joined[g * stride + k] += share[i] * covers[i * stride + k];
  }
  for (let g = 0; g < groups; g++) {
    if (!(out.share[g] > 0)) continue;
    const own = whole(heaviest[g]);
    for (let c = 0; c < 3; c++)
      out.rgb[3 * g + c] = own ? rgb[3 * heaviest[g] + c] : out.rgb[3 * g + c] / out.share[g];
    for (let k = 0; k < stride; k++) joined[g * stride + k] /= out.share[g];
    oklabInto(out.lab, 3 * g, out.rgb[3 * g], out.rgb[3 * g + 1], out.rgb[3 * g + 2]);
  }
  return { census: out, covers: joined };
}

function column(covers: Float64Array, stride: number, k: number): Float64Array {
  return Float64Array.from({ length: covers.length / stride }, (_, i) => covers[i * stride + k]);
}

function columns(covers: Float64Array, stride: number, first: number): Float64Array {
  if (stride === first) return covers;
  const count = stride > 0 ? covers.length / stride : 0;
  const out = new Float64Array(count * first);
  for (let i = 0; i < count; i++) out.set(covers.subarray(i * stride, i * stride + first), i * first);
  return out;
}

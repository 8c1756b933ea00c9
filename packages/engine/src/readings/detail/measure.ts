import { oklabInto } from '../../colour/oklab.ts';
import { DETAIL } from '../../findings/thresholds/detail.ts';
import type { FocusIntent } from '../../intent/intent.ts';
import { blur } from '../../numbers/blur.ts';
import { type Plane, planeOf, stretch } from '../../numbers/plane.ts';
import { lightnessPlane } from '../../views/lightnessPlane.ts';
import type { View, Views } from '../../views/view.ts';
import { detailEnergy } from './energy.ts';
import { focusField } from './focus.ts';

export interface DetailValue {
  /** Share of the fine energy that lies outside the focus. */
  outsideFocusShare: number | null;
  /** Share of the area with busy fine strokes that add little to the whole view, outside the focus. */
  overworkedShare: number;
  /** Share of the focus without visible detail. */
  starvedShare: number;
  /** Fine amplitude in the focus against that of the rest; above 1 the focus is finer. */
  focusRatio: number | null;
  /** How evenly detail is spread: entropy over 16 × 16 places against the largest possible, 0…1. */
  evenness: number | null;
  /** Root mean square of the fine octaves, in L*. */
  fineAmplitude: number;
  /** Share of the picture that the focus takes. */
  focusShare: number;
  focusDrawn: boolean;
}

export interface DetailMeasure {
  readonly value: DetailValue;
  readonly overworked: Plane;
  readonly starved: Plane;
  readonly focus: Plane;
  readonly drawing: () => Plane;
}

/** Measures where a picture's fine strokes lie and what they add. `leftOut` (1 = do not count) is of any size. */
export function measureDetail(
  views: Views,
  drawn: FocusIntent | undefined,
  leftOut: Plane | null,
): DetailMeasure {
  const { fine, texture, coarse, drawing, cover } = detailEnergy(views.middle);
  const { width, height } = fine;
  const focus = focusField(views.whole, drawn, width, height);
  const part = stretch(wholeContrast(views.whole), width, height);
  const skip = leftOut ? stretch(leftOut, width, height) : null;
  const weight = planeOf(width, height, (p) => cover.data[p] * (skip ? 1 - skip.data[p] : 1));

  const overworked = planeOf(width, height, (p) => {
    const amplitude = Math.sqrt(texture.data[p]);
    const busy = clamp((amplitude - DETAIL.visible) / (DETAIL.busy - DETAIL.visible));
    const own = texture.data[p] / (texture.data[p] + coarse.data[p] + 1e-6);
    const little = clamp(1.6 - part.data[p] / DETAIL.quietWhole);
    return busy * clamp((own - 0.2) / 0.2) * little * (1 - focus.data[p]) * weight.data[p];
  });
  const starved = planeOf(
    width,
    height,
    (p) =>
      focus.data[p] * weight.data[p] * clamp(1 - Math.sqrt(fine.data[p] + coarse.data[p]) / DETAIL.visible),
  );

  let all = 0;
  let total = 0;
  let inside = 0;
  let insideArea = 0;
  let flagged = 0;
  let bare = 0;
  for (let p = 0; p < weight.data.length; p++) {
    const w = weight.data[p];
    all += w;
    total += w * fine.data[p];
    inside += w * focus.data[p] * fine.data[p];
    insideArea += w * focus.data[p];
    flagged += overworked.data[p] > 0.5 ? w : 0;
    bare += starved.data[p];
  }
  const outsideArea = all - insideArea;
  const within = insideArea > 0 ? inside / insideArea : 0;
  const without = outsideArea > 0 ? (total - inside) / outsideArea : 0;
  return {
    value: {
      outsideFocusShare: total > 0 ? 1 - inside / total : null,
      overworkedShare: all > 0 ? flagged / all : 0,
      starvedShare: insideArea > 0 ? bare / insideArea : 0,
      focusRatio: without > 0 && insideArea > 0 ? Math.sqrt(within / without) : null,
      evenness: evenness(fine, weight),
      fineAmplitude: all > 0 ? Math.sqrt(total / all) : 0,
      focusShare: all > 0 ? insideArea / all : 0,
      focusDrawn: drawn !== undefined && drawn.outlines.length > 0,
    },
    overworked,
    starved,
    focus,
    drawing,
  };
}

const clamp = (v: number): number => Math.min(1, Math.max(0, v));

/** How far a place stands out from its surroundings when one steps back: distance in OKLab × 100 from the blurred ground. */
function wholeContrast(whole: View): Plane {
  const { width, height, rgb } = whole;
  const lab = [0, 0, 0];
  const chroma = (c: 1 | 2): Plane =>
    planeOf(width, height, (p) => {
      oklabInto(lab, 0, rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2]);
      return 100 * lab[c];
    });
  const planes = [lightnessPlane(whole), chroma(1), chroma(2)];
  const ground = planes.map((plane) => blur(plane, Math.max(width, height) / 20));
  return planeOf(width, height, (p) =>
    Math.hypot(...planes.map((plane, c) => plane.data[p] - ground[c].data[p])),
  );
}

/** Entropy of the fine energy over 16 × 16 places, as a share of an even spread; null where nothing is fine. */
function evenness(fine: Plane, weight: Plane): number | null {
  const places = new Float64Array(256);
  let total = 0;
  for (let p = 0; p < fine.data.length; p++) {
    const x = Math.floor(((p % fine.width) * 16) / fine.width);
    const y = Math.floor((Math.floor(p / fine.width) * 16) / fine.height);
    const energy = fine.data[p] * weight.data[p];
    places[16 * y + x] += energy;
    total += energy;
  }
  if (total <= 0) return null;
  let entropy = 0;
  for (const e of places) if (e > 0) entropy -= (e / total) * Math.log(e / total);
  return entropy / Math.log(256);
}

/** One version from the study to code values: plant, lay the air, plan the strokes, draw them, finish. */
import { canvasOf } from '../paint/canvas.ts';
import { finish } from '../paint/finish.ts';
import { type Layer, type Plan, planStrokes } from '../paint/plan.ts';
import { drawStrokes } from '../paint/ribbon.ts';
import type { Rgb } from '../scene/index.ts';
import { type Closing, closeDarks, closingOf } from './closing.ts';
import { layVeil, type Planted, plant } from './faults.ts';
import { calmFar, layAir } from './light.ts';
import { type Place, placeOf } from './place.ts';
import { importanceOf, regionsOf } from './regions.ts';
import type { Study } from './study.ts';
import type { Version } from './versions.ts';
import { guidesOf } from './view.ts';

/** Brushes from coarse to fine, in widths of the picture. */
const BRUSHES = [0.06, 0.034, 0.02, 0.012, 0.0075, 0.0046, 0.0028, 0.0017, 0.0012];
/** Below this brushes paint what is thin. */
const THIN_BELOW = 0.006;
/** The toned ground: shows where strokes break. */
const GROUND: Rgb = [0.085, 0.068, 0.088];
/** Rows that are drawn at once: bounds the memory for large pictures. */
const STRIP = 512;

/** Deviation of light by the paint's relief. */
const RELIEF = 0.06;

/** A version that is ready to be drawn at any size. */
export interface Painting {
  readonly plan: Plan;
  readonly planted: Planted;
  readonly closing: Closing;
  readonly place: Place;
}

/** Decides every stroke of a version. */
export function composeVersion(study: Study, version: Version): Painting {
  const place = placeOf({ seed: study.seed, aspect: study.aspect });
  const { picture, planted } = plant(study, version);
  calmFar(study, picture);
  layAir(study, place, picture, version.air);
  layVeil(picture, version.veil);
  const regions = regionsOf(study);
  const importance = importanceOf(study, place, regions);
  if (version.overworked > 0)
    for (let i = 0; i < importance.length; i++)
      importance[i] = Math.max(importance[i]!, version.overworked * planted.overworked[i]!);
  const { fine, coarse } = guidesOf(study, regions, importance, picture);
  // Small paintings stop at two pixels: finer strokes would only be noise.
  const smallest = Math.max(version.smallest, (study.width < 1000 ? 2 : 1.3) / study.width);
  const layers: Layer[] = BRUSHES.filter((b) => b >= smallest * 0.99).map((brush) => ({
    brush,
    guide: brush > THIN_BELOW ? coarse : fine,
    tolerance: version.tolerance,
    jitter: version.jitter,
  }));
  const plan = planStrokes(layers, GROUND, study.seed);
  const closing = closingOf(study, plan.small.rgb, version.closed);
  return { plan, planted, closing, place };
}

/** 8-bit sRGB, interleaved, of the rows `from` up to, without, `to` of a version at the given size. */
export function drawRows(
  painting: Painting,
  width: number,
  height: number,
  from: number,
  to: number,
  onProgress?: (share: number) => void,
): Uint8Array {
  const { small, strokes } = painting.plan;
  if (small.width === width && small.fullHeight === height) {
    // The study was made at this very size: the painting is there already.
    const canvas = { ...small, rgb: small.rgb.slice() };
    closeDarks(canvas, painting.closing);
    return finish(canvas, from, to, RELIEF);
  }
  const out = new Uint8Array(width * (to - from) * 3);
  for (let y = from; y < to; y += STRIP) {
    const end = Math.min(to, y + STRIP);
    // One row more on each side, for the paint's relief.
    const canvas = canvasOf(width, height, GROUND, [Math.max(0, y - 1), Math.min(height, end + 1)]);
    drawStrokes(canvas, strokes);
    closeDarks(canvas, painting.closing);
    out.set(finish(canvas, y, end, RELIEF), (y - from) * width * 3);
    onProgress?.((end - from) / (to - from));
  }
  return out;
}

import { boxMean } from '../../areas/boxFilter.ts';
import { oklabInto } from '../../colour/oklab.ts';
import { type Plane, planeOf, stretch } from '../../numbers/plane.ts';
import { laplacianPyramid } from '../../numbers/pyramid.ts';
import { lightnessPlane } from '../../views/lightnessPlane.ts';
import type { View } from '../../views/view.ts';

/** Local energies of a picture on a grid of a quarter of its middle view, in units of L* squared. */
export interface DetailEnergy {
  /** The two finest octaves. */
  readonly fine: Plane;
  /** The fine octaves where they are texture rather than single lines: a power mean that few strong strokes don't raise. */
  readonly texture: Plane;
  /** The next three. */
  readonly coarse: Plane;
  /** Fine octaves alone, signed, as large as the middle view: the picture as drawn by its fine detail. */
  readonly drawing: Plane;
  /** Cover of each place of the grid, 0…1. */
  readonly cover: Plane;
}

/** Splits a picture (its middle view) into octaves of L* and chroma (OKLab, × 100, so that both count alike). */
export function detailEnergy(view: View): DetailEnergy {
  const { width, height, rgb, alpha } = view;
  const L = lightnessPlane(view);
  const lab = [0, 0, 0];
  const C = planeOf(width, height, (p) => {
    oklabInto(lab, 0, rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2]);
    return 100 * Math.sqrt(lab[1] * lab[1] + lab[2] * lab[2]);
  });
  // Transparent places take the mean, so that their border is no detail.
  if (alpha) for (const plane of [L, C]) fillClear(plane, alpha);
  const light = laplacianPyramid(L, 5);
  const chroma = laplacianPyramid(C, 5);
  const gw = Math.max(1, width >> 2);
  const gh = Math.max(1, height >> 2);
  const octaves = light.slice(0, -1).map((level, k) => energyOn(gw, gh, level, chroma[k]));
  const window = Math.max(1, Math.round(gw / 75));
  const spread = (plane: Plane): Plane => {
    boxMean(plane.data, gw, gh, window, plane.data);
    return planeOf(gw, gh, (p) => Math.max(0, plane.data[p]));
  };
  const sum = (part: readonly Plane[]): Plane =>
    planeOf(gw, gh, (p) => part.reduce((a, o) => a + o.data[p], 0));
  const finest = sum(octaves.slice(0, 2));
  // Power mean with exponent 1/4 of the energy: a line over a tenth of the window leaves a ten-thousandth.
  const roots = spread(planeOf(gw, gh, (p) => finest.data[p] ** 0.25));
  const second = light.length > 2 ? stretch(light[1], width, height) : null;
  return {
    texture: planeOf(gw, gh, (p) => roots.data[p] ** 4),
    fine: spread(finest),
    coarse: spread(sum(octaves.slice(2))),
    drawing: planeOf(width, height, (p) => light[0].data[p] + (second ? second.data[p] : 0)),
    cover: alpha ? stretch({ width, height, data: alpha }, gw, gh) : planeOf(gw, gh, () => 1),
  };
}

/** Mean square of a level over the places of the grid. */
function energyOn(gw: number, gh: number, light: Plane, chroma: Plane): Plane {
  const square = planeOf(light.width, light.height, (p) => light.data[p] ** 2 + chroma.data[p] ** 2);
  if (light.width <= gw) return stretch(square, gw, gh);
  const out = new Float32Array(gw * gh);
  const count = new Float32Array(gw * gh);
  for (let y = 0; y < light.height; y++) {
    const row = Math.min(gh - 1, Math.floor((y * gh) / light.height)) * gw;
    for (let x = 0; x < light.width; x++) {
      const at = row + Math.min(gw - 1, Math.floor((x * gw) / light.width));
      out[at] += square.data[y * light.width + x];
      count[at]++;
    }
  }
  for (let p = 0; p < out.length; p++) out[p] /= count[p] || 1;
  return { width: gw, height: gh, data: out };
}

function fillClear(plane: Plane, alpha: Float32Array): void {
  let sum = 0;
  let weight = 0;
  for (let p = 0; p < alpha.length; p++) {
    sum += alpha[p] * plane.data[p];
    weight += alpha[p];
  }
  const mean = weight > 0 ? sum / weight : 0;
  for (let p = 0; p < alpha.length; p++) plane.data[p] = mean + alpha[p] * (plane.data[p] - mean);
}

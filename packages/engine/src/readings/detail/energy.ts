import { boxMean } from '../../areas/boxFilter.ts';
import { lightness, luminance } from '../../colour/cielab.ts';
import { oklabInto } from '../../colour/oklab.ts';
import { type Plane, planeOf, stretch } from '../../numbers/plane.ts';
import { laplacianPyramid } from '../../numbers/pyramid.ts';
import type { View } from '../../views/view.ts';

/** Local energies of a picture on a grid of a quarter of its middle view, in units of L* squared. */
export interface DetailEnergy {
  /** The two finest octaves. */
  readonly fine: Plane;
  /** The fine octaves where they are texture rather than single lines: a power mean that few strong strokes don't raise. */
  readonly texture: Plane;
  /** The next three. */
  readonly coarse: Plane;
  /** Fine octaves alone, signed, as large as the middle view: the picture as drawn by its fine detail. Made when asked for. */
  readonly drawing: () => Plane;
  /** Cover of each place of the grid, 0…1. */
  readonly cover: Plane;
}

/** Splits a picture (its middle view) into octaves of L* and chroma (OKLab, × 100, so that both count alike). */
export function detailEnergy(view: View): DetailEnergy {
  const { width, height, alpha } = view;
  const [L, C] = lightnessAndChroma(view);
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
  const roots = spread(planeOf(gw, gh, (p) => Math.sqrt(Math.sqrt(finest.data[p]))));
  return {
    texture: planeOf(gw, gh, (p) => roots.data[p] ** 4),
    fine: spread(finest),
    coarse: spread(sum(octaves.slice(2))),
    drawing: () => {
      const second = light.length > 2 ? stretch(light[1], width, height) : null;
      return planeOf(width, height, (p) => light[0].data[p] + (second ? second.data[p] : 0));
    },
    cover: alpha ? stretch({ width, height, data: alpha }, gw, gh) : planeOf(gw, gh, () => 1),
  };
}

/** L* and chroma (OKLab, × 100) of a view in one pass. */
function lightnessAndChroma({ width, height, rgb }: View): [Plane, Plane] {
  const L = new Float32Array(width * height);
  const C = new Float32Array(width * height);
  const lab = new Float64Array(3);
  for (let p = 0, i = 0; p < L.length; p++, i += 3) {
    L[p] = lightness(Math.max(0, luminance(rgb[i], rgb[i + 1], rgb[i + 2])));
    oklabInto(lab, 0, rgb[i], rgb[i + 1], rgb[i + 2]);
    C[p] = 100 * Math.sqrt(lab[1] * lab[1] + lab[2] * lab[2]);
  }
  return [
    { width, height, data: L },
    { width, height, data: C },
  ];
}

/** Mean square of a level over the places of the grid. */
function energyOn(gw: number, gh: number, light: Plane, chroma: Plane): Plane {
  const { width, height } = light;
  if (width <= gw)
    return stretch(
      planeOf(width, height, (p) => light.data[p] ** 2 + chroma.data[p] ** 2),
      gw,
      gh,
    );
  const out = new Float64Array(gw * gh);
  const count = new Float64Array(gw * gh);
  const column = Int32Array.from({ length: width }, (_, x) => Math.min(gw - 1, Math.floor((x * gw) / width)));
  for (let y = 0, p = 0; y < height; y++) {
    const row = Math.min(gh - 1, Math.floor((y * gh) / height)) * gw;
    for (let x = 0; x < width; x++, p++) {
      const at = row + column[x];
      out[at] += light.data[p] * light.data[p] + chroma.data[p] * chroma.data[p];
      count[at]++;
    }
  }
  return planeOf(gw, gh, (p) => out[p] / (count[p] || 1));
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

import type { Census } from '../../census/census.ts';
import { chromaLimit } from '../../colour/chromaLimit.ts';
import { lightness, luminance } from '../../colour/cielab.ts';
import { fromSrgb } from '../../colour/gamut.ts';
import { transform } from '../../colour/matrix.ts';
import { oklabInto, oklabToLinear } from '../../colour/oklab.ts';
import type { ColourSpace } from '../../colour/space.ts';
import { CLOSED, EDGE, EDGE_CHROMA } from '../../findings/thresholds/headroom.ts';
import type { Field, View } from '../../views/view.ts';

/** Why a colour can't be moved any more. */
export type End = 'dark' | 'light' | 'colour' | null;

/** Tells at which end a colour stands, by its linear sRGB light and OKLab. */
export function endFinder(
  space: ColourSpace,
): (rgb: ArrayLike<number>, lab: ArrayLike<number>, at: number) => End {
  const limit = chromaLimit(space);
  const into = fromSrgb(space);
  return (rgb, lab, at) => {
    const L = lightness(luminance(rgb[at], rgb[at + 1], rgb[at + 2]));
    if (L < CLOSED.dark) return 'dark';
    if (L > CLOSED.light) return 'light';
    const a = lab[at + 1];
    const b = lab[at + 2];
    const chroma = Math.sqrt(a * a + b * b);
    if (chroma < EDGE_CHROMA) return null;
    const hue = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
    const edge = limit(lab[at], hue);
    if (chroma < 0.96 * EDGE * edge) return null;
    if (chroma >= 1.02 * edge) return 'colour';
    // Near the line the table is too coarse: asked of the gamut itself.
    return inside(lab, at, 1 / EDGE, into) ? null : 'colour';
  };
}

function inside(lab: ArrayLike<number>, at: number, gain: number, into: readonly number[]): boolean {
  const [r, g, b] = transform(into, oklabToLinear([lab[at], lab[at + 1] * gain, lab[at + 2] * gain]));
  return r >= 0 && g >= 0 && b >= 0 && r <= 1 && g <= 1 && b <= 1;
}

/** Shares of the area at the ends. Channels at their limit are the census' exact counts. */
export function sharesAtEnds(
  census: Census,
  space: ColourSpace,
): { ends: number; darks: number; lights: number; colours: number } {
  const find = endFinder(space);
  let darks = 0;
  let lights = 0;
  let colours = 0;
  for (let i = 0; i < census.count; i++) {
    const end = find(census.rgb, census.lab, 3 * i);
    if (end === 'dark') darks += census.share[i];
    else if (end === 'light') lights += census.share[i];
    else if (end === 'colour') colours += census.share[i];
    else colours += Math.min(census.share[i], census.atFloor[i] + census.atCeiling[i]);
  }
  return { ends: darks + lights + colours, darks, lights, colours };
}

/** Where the ends are, on a view: 1 at a closed place. */
export function endsMap(view: View, space: ColourSpace): Field {
  const find = endFinder(space);
  const lab = new Float64Array(3);
  const rgb = new Float64Array(3);
  const data = new Float32Array(view.width * view.height);
  for (let p = 0; p < data.length; p++) {
    for (let c = 0; c < 3; c++) rgb[c] = view.rgb[3 * p + c];
    oklabInto(lab, 0, rgb[0], rgb[1], rgb[2]);
    data[p] = find(rgb, lab, 0) ? 1 : 0;
  }
  return { width: view.width, height: view.height, data };
}

import type { Census } from '../../census/census.ts';
import { lightness, luminance } from '../../colour/cielab.ts';
import { fromSrgb } from '../../colour/gamut.ts';
import { linearInto, oklabInto } from '../../colour/oklab.ts';
import type { ColourSpace } from '../../colour/space.ts';
import { CLOSED, EDGE, EDGE_CHROMA } from '../../findings/thresholds/headroom.ts';
import type { Field, View } from '../../views/view.ts';

/** Why a colour can't be moved any more. */
export type End = 'dark' | 'light' | 'colour' | null;

/** Tells at which end a colour stands, by its linear sRGB light and OKLab. */
export function endFinder(
  space: ColourSpace,
): (rgb: ArrayLike<number>, lab: ArrayLike<number>, at: number) => End {
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = fromSrgb(space);
  const beyond = new Float64Array(3);
  return (rgb, lab, at) => {
    const L = lightness(luminance(rgb[at], rgb[at + 1], rgb[at + 2]));
    if (L < CLOSED.dark) return 'dark';
    if (L > CLOSED.light) return 'light';
    const a = lab[at + 1];
    const b = lab[at + 2];
    if (a * a + b * b < EDGE_CHROMA * EDGE_CHROMA) return null;
    // A little more chroma at the same lightness and hue: does it leave the gamut?
    linearInto(beyond, 0, lab[at], a / EDGE, b / EDGE);
    const [x, y, z] = beyond;
    const red = m0 * x + m1 * y + m2 * z;
    const green = m3 * x + m4 * y + m5 * z;
    const blue = m6 * x + m7 * y + m8 * z;
    return red < 0 || green < 0 || blue < 0 || red > 1 || green > 1 || blue > 1 ? 'colour' : null;
  };
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

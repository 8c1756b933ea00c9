import type { Census } from '../census/census.ts';
import { hueName } from '../colour/words.ts';
import { hueDistance } from '../edits/lch.ts';
import type { HueArc } from '../intent/intent.ts';

/** The lightest places are looked at, up to this share of the picture: lamps, windows, the low sun. Our default. */
const LIGHTEST = 0.03;
/** … that lie within so much OKLab lightness of the lightest thousandth. Our default. */
const BELOW_TOP = 0.15;
const TOP = 0.001;
/** Colours of less chroma than this are white paint, not coloured light. Our default. */
const LEAST_CHROMA = 0.03;
/** Resultant length of their hues, 0…1, from which on they have one hue in common. Our default. */
const IN_COMMON = 0.85;
/** Arc that is kept for them, degrees. */
const WIDTH = 50;

/** The lights of a picture: the hue that its lightest places have in common. */
export interface Lights {
  readonly arc: HueArc;
  /** OKLab lightness from which on a colour of that hue belongs to them. */
  readonly from: number;
  /** "the orange of the lights". */
  readonly words: string;
}

/** The lights of a picture; null where its lightest places are white or of several hues. */
export function lightsOf({ count, share, lab }: Census): Lights | null {
  const order = Uint32Array.from({ length: count }, (_, i) => i).sort((i, j) => lab[3 * j] - lab[3 * i]);
  let [area, x, y, chroma, from, top] = [0, 0, 0, 0, 1, 1];
  for (const i of order) {
    if (area < TOP) top = lab[3 * i];
    if (area >= LIGHTEST || lab[3 * i] < top - BELOW_TOP) break;
    area += share[i];
    x += share[i] * lab[3 * i + 1];
    y += share[i] * lab[3 * i + 2];
    chroma += share[i] * Math.hypot(lab[3 * i + 1], lab[3 * i + 2]);
    from = lab[3 * i];
  }
  if (!(chroma > LEAST_CHROMA * area) || Math.hypot(x, y) < IN_COMMON * chroma) return null;
  const hue = Number((((Math.atan2(y, x) * 180) / Math.PI + 360) % 360).toFixed(1));
  return { arc: { hue, width: WIDTH }, from, words: `the ${hueName(hue)} of the lights` };
}

/** True when a hue is that of the lights. */
export function isTheirs(hue: number, { arc }: Lights): boolean {
  return hueDistance(hue, arc.hue) <= arc.width / 2;
}

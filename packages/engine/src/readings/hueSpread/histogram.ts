import type { Census } from '../../census/census.ts';
import { hueOf } from '../../colour/hue.ts';

/** Number of steps of the hue circle: 1° each. */
export const STEPS = 360;
/** Below this OKLCh chroma a colour has no hue that means anything … */
const NO_HUE = 0.02;
/** … and from here on its hue counts in full. */
const FULL_HUE = 0.04;
/** OKLab lightness below which a colour looks black whatever its chroma says, and from which it counts in full. */
const BLACK = 0.12;
const NOT_BLACK = 0.18;

/** The picture's colours by hue, in steps of 1°; step i holds the hues around i + ½ degrees. */
export interface HueHistogram {
  /** Colour weight of each hue (area × chroma), as a share of all colour weight; all 0 without any. */
  readonly weight: Float64Array;
  /** Area of each hue as a share of the picture; greys do not count. */
  readonly area: Float64Array;
  /** Sums of area × linear light, `STEPS × 3`: divided by `area`, the mean colour of a hue. */
  readonly light: Float64Array;
  /** Sum of area × chroma over the picture: 0 for a grey one. */
  readonly colourWeight: number;
  /** Share of the picture that has a hue at all. */
  readonly chromaticShare: number;
}

/** How far a colour's hue counts, 0 (grey or black) to 1. */
export function hueCounts(lightness: number, chroma: number): number {
  const colour = Math.min(1, Math.max(0, (chroma - NO_HUE) / (FULL_HUE - NO_HUE)));
  const light = Math.min(1, Math.max(0, (lightness - BLACK) / (NOT_BLACK - BLACK)));
  return colour * light;
}

/** Collects the picture's colours by hue; each colour is shared between its two nearest steps. */
export function hueHistogram({ count, share, lab, rgb }: Census): HueHistogram {
  const weight = new Float64Array(STEPS);
  const area = new Float64Array(STEPS);
  const light = new Float64Array(3 * STEPS);
  let colourWeight = 0;
  let chromaticShare = 0;
  for (let i = 0; i < count; i++) {
    const a = lab[3 * i + 1];
    const b = lab[3 * i + 2];
    const chroma = Math.sqrt(a * a + b * b);
    const counts = share[i] * hueCounts(lab[3 * i], chroma);
    if (!(counts > 0)) continue;
    colourWeight += counts * chroma;
    chromaticShare += counts;
    const at = hueOf(a, b) - 0.5;
    const low = Math.floor(at);
    const part = at - low;
    for (let side = 0; side < 2; side++) {
      const h = (low + side + STEPS) % STEPS;
      const c = counts * (side === 0 ? 1 - part : part);
      weight[h] += c * chroma;
      area[h] += c;
      light[3 * h] += c * rgb[3 * i];
      light[3 * h + 1] += c * rgb[3 * i + 1];
      light[3 * h + 2] += c * rgb[3 * i + 2];
    }
  }
  if (colourWeight > 0) for (let h = 0; h < STEPS; h++) weight[h] /= colourWeight;
  return { weight, area, light, colourWeight, chromaticShare };
}

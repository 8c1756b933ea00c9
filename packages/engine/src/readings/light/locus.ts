import { transform } from '../../colour/matrix.ts';
import { linearToOklab, oklabToOklch } from '../../colour/oklab.ts';
import { XYZ_TO_SRGB } from '../../colour/rgbSpaces.ts';
import { fullChange, type Ratio } from './curve.ts';
import { fromLogColour, logColour } from './logColour.ts';
import type { Shift } from './types.ts';

/** Second radiation constant of ITS-90, m·K (CIE 15). */
const C2 = 1.4388e-2;

export interface Chromaticity {
  readonly x: number;
  readonly y: number;
}

/** Chromaticity of CIE daylight of a correlated colour temperature 4000…25 000 K (CIE 15:2018, 4.1.2). */
export function daylight(kelvin: number): Chromaticity {
  const t = 1000 / kelvin;
  const x =
    kelvin <= 7000
      ? 0.244063 + 0.09911 * t + 2.9678 * t ** 2 - 4.607 * t ** 3
      : 0.23704 + 0.24748 * t + 1.9018 * t ** 2 - 2.0064 * t ** 3;
  return { x, y: -3 * x * x + 2.87 * x - 0.275 };
}

/**
 * Chromaticity of a Planckian radiator for the CIE 1931 observer.
 *
 * Planck's law summed over the observer in its multi-lobe Gaussian form (Wyman, Sloan & Shirley 2013, "Simple
 * analytic approximations to the CIE XYZ color matching functions", JCGT 2), 1 nm from 360 to 830.
 */
export function planck(kelvin: number): Chromaticity {
  let X = 0;
  let Y = 0;
  let Z = 0;
  for (let nm = 360; nm <= 830; nm++) {
    const metres = nm * 1e-9;
    const power = nm ** -5 / Math.expm1(C2 / (metres * kelvin));
    X +=
      power *
      (lobe(nm, 1.056, 599.8, 37.9, 31) +
        lobe(nm, 0.362, 442, 16, 26.7) +
        lobe(nm, -0.065, 501.1, 20.4, 26.2));
    Y += power * (lobe(nm, 0.821, 568.8, 46.9, 40.5) + lobe(nm, 0.286, 530.9, 16.3, 31.1));
    Z += power * (lobe(nm, 1.217, 437, 11.8, 36) + lobe(nm, 0.681, 459, 26, 13.8));
  }
  return { x: X / (X + Y + Z), y: Y / (X + Y + Z) };
}

function lobe(nm: number, height: number, at: number, below: number, above: number): number {
  return height * Math.exp(-0.5 * ((nm - at) / (nm < at ? below : above)) ** 2);
}

/** Linear light in sRGB primaries (IEC 61966-2-1) of a chromaticity at luminance 1, unclipped. */
export function lightOf({ x, y }: Chromaticity): [number, number, number] {
  const X = x / y;
  const Z = (1 - x - y) / y;
  return transform(XYZ_TO_SRGB, [X, 1, Z]);
}

/** Log-chromaticity moved by 100 mired along the daylight locus at D65: the difference over ±10 mired. */
export const PER_100_MIRED: Shift = (() => {
  const d65 = 1e6 / 6504;
  const at = (mired: number) => logColour(...lightOf(daylight(1e6 / mired)));
  const warm = at(d65 + 10);
  const cool = at(d65 - 10);
  return { x: 5 * (warm.x - cool.x), y: 5 * (warm.y - cool.y) };
})();

/** A shift farther than this from the locus' direction is the shift of a coloured light (tangent of 20°). Our default. */
const NEAR = Math.tan((20 * Math.PI) / 180);
/** Shifts shorter than this across the locus count as near it whatever their direction. Our default. */
const TINY = 0.04;

/**
 * Size of a shift in mired: its projection on the locus' tangent at D65. Positive: the lit side is warmer.
 * Null for a shift that leaves the locus (coloured light): it has no colour temperature.
 */
export function miredOf(shift: Shift): number | null {
  const length = Math.hypot(PER_100_MIRED.x, PER_100_MIRED.y);
  const along = (shift.x * PER_100_MIRED.x + shift.y * PER_100_MIRED.y) / length;
  const across = Math.abs(shift.x * PER_100_MIRED.y - shift.y * PER_100_MIRED.x) / length;
  if (across > TINY && across > NEAR * Math.abs(along)) return null;
  return (100 * along) / length;
}

/** OKLCh hue, degrees, of a mid grey tinted by the full change of light: the lit side of a surface whose shade looks grey. */
export function tintHue(q: Ratio): number {
  const { x, y } = fullChange(q);
  return oklabToOklch(linearToOklab(fromLogColour({ x, y, l: Math.log(0.3) })))[2];
}

import { transform } from './matrix.ts';
import { XYZ_TO_SRGB } from './rgbSpaces.ts';

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

/**
 * Correlated colour temperature of a chromaticity near the Planckian locus, in kelvin.
 *
 * Source: McCamy 1992, "Correlated color temperature as an explicit function of chromaticity coordinates"; good to a
 * few kelvin between 2850 and 6500.
 */
export function mccamy({ x, y }: Chromaticity): number {
  const n = (x - 0.332) / (0.1858 - y);
  return ((449 * n + 3525) * n + 6823.3) * n + 5520.33;
}

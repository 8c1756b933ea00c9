import { transform } from './matrix.ts';
import { XYZ_TO_SRGB } from './rgbSpaces.ts';

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
 * Chromaticity of a Planckian radiator of 1000…15 000 K for the CIE 1931 observer.
 *
 * Source: Krystek 1985, "An algorithm to calculate correlated colour temperature", Color Research & Application 10:
 * rational approximations in the CIE 1960 diagram, within 9e-5 there.
 */
export function planck(kelvin: number): Chromaticity {
  const t = kelvin;
  const u =
    (0.860117757 + 1.54118254e-4 * t + 1.28641212e-7 * t * t) /
    (1 + 8.42420235e-4 * t + 7.08145163e-7 * t * t);
  const v =
    (0.317398726 + 4.22806245e-5 * t + 4.20481691e-8 * t * t) /
    (1 - 2.89741816e-5 * t + 1.61456053e-7 * t * t);
  const d = 2 * u - 8 * v + 4;
  return { x: (3 * u) / d, y: (2 * v) / d };
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

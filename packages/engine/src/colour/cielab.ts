import { type Triple, transform } from './matrix.ts';
import { SRGB_TO_XYZ } from './rgbSpaces.ts';

// CIE 15:2018; white from the D65 chromaticity (0.3127, 0.3290) as in CSS Color 4.
const WHITE: Triple = [0.3127 / 0.329, 1, (1 - 0.3127 - 0.329) / 0.329];
const EPSILON = 216 / 24389;
const KAPPA = 24389 / 27;
// Own constants: reading them from the matrix for every pixel costs four times the arithmetic.
const [, , , YR, YG, YB] = SRGB_TO_XYZ;
const f = (t: number): number => (t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116);

/** CIELAB (L* 0…100, a*, b*) relative to D65, of XYZ with white at Y = 1. */
export function xyzToCielab(xyz: Triple): [number, number, number] {
  const x = f(xyz[0] / WHITE[0]);
  const y = f(xyz[1]);
  const z = f(xyz[2] / WHITE[2]);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** CIELAB relative to D65 of linear sRGB light. */
export function linearToCielab(rgb: Triple): [number, number, number] {
  return xyzToCielab(transform(SRGB_TO_XYZ, rgb));
}

/** Relative luminance Y (0…1) of linear sRGB light. */
export function luminance(r: number, g: number, b: number): number {
  return YR * r + YG * g + YB * b;
}

/** L* (0…100) of a relative luminance; below 0 for negative luminance. */
export function lightness(y: number): number {
  return 116 * f(y) - 16;
}

/** Relative luminance of L*: the inverse of `lightness`. */
export function luminanceOf(L: number): number {
  return L > 8 ? ((L + 16) / 116) ** 3 : L / KAPPA;
}

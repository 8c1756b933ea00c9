import { invert, type Matrix } from '@halflight/engine';
import { PCS_TO_SRGB, PCS_WHITE } from '../icc/space.ts';

const EPSILON = 216 / 24389;
const KAPPA = 24389 / 27;
const SRGB_TO_PCS: Matrix = invert(PCS_TO_SRGB);

/** CIELAB of the connection space (D50) of linear sRGB light, three numbers at `at` (ICC.1:2022 section 6.3). */
export function labInto(out: Float32Array | Float64Array, at: number, r: number, g: number, b: number): void {
  const m = SRGB_TO_PCS;
  const x = f((m[0] * r + m[1] * g + m[2] * b) / PCS_WHITE[0]);
  const y = f((m[3] * r + m[4] * g + m[5] * b) / PCS_WHITE[1]);
  const z = f((m[6] * r + m[7] * g + m[8] * b) / PCS_WHITE[2]);
  out[at] = 116 * y - 16;
  out[at + 1] = 500 * (x - y);
  out[at + 2] = 200 * (y - z);
}

/** Linear sRGB light, unclipped, of CIELAB of the connection space. */
export function lightInto(
  out: Float32Array | Float64Array,
  at: number,
  L: number,
  a: number,
  b: number,
): void {
  const y = (L + 16) / 116;
  const X = PCS_WHITE[0] * inverse(y + a / 500);
  const Y = PCS_WHITE[1] * inverse(y);
  const Z = PCS_WHITE[2] * inverse(y - b / 200);
  const m = PCS_TO_SRGB;
  for (let c = 0; c < 3; c++) out[at + c] = m[3 * c] * X + m[3 * c + 1] * Y + m[3 * c + 2] * Z;
}

function f(t: number): number {
  return t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116;
}

function inverse(t: number): number {
  return t ** 3 > EPSILON ? t ** 3 : (116 * t - 16) / KAPPA;
}

import { daylight } from './daylight.ts';
import { invert, type Matrix, multiply, type Triple, transform } from './matrix.ts';
import { SRGB_TO_XYZ, XYZ_TO_SRGB } from './rgbSpaces.ts';

/** Cone responses of the linear Bradford transform (ICC.1:2022, annex E). */
const BRADFORD: Matrix = [0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296];
const TO_CONES = multiply(BRADFORD, SRGB_TO_XYZ);
const FROM_CONES = multiply(XYZ_TO_SRGB, invert(BRADFORD));

/** D65 in mired: 1 000 000 / 6504 K. */
const D65_MIRED = 1e6 / 6504;
/** The daylight formula holds from 4000 to 25 000 K; the locus is followed along its end tangents outside. */
const WARMEST = 1e6 / 4000;
const COOLEST = 1e6 / 25000;

/**
 * Gains of the three cone responses for a move along the daylight locus, from D65.
 *
 * White keeps its luminance. Gains of half the shift, applied twice, are not exactly those of the whole; between
 * strengths the gains are therefore raised to a power (`warmthMover`).
 *
 * @param mired positive = warmer
 */
export function warmthGains(mired: number): Triple {
  const white = conesOf(D65_MIRED);
  const moved = conesOf(D65_MIRED + mired);
  return [moved[0] / white[0], moved[1] / white[1], moved[2] / white[2]];
}

/**
 * Multiplies the cone responses of a colour (linear sRGB, three numbers at `at`) by gains to the power `amount`. The
 * matrix is kept for as long as the amount stays.
 */
export function warmthMover(
  gains: Triple,
): (rgb: { [i: number]: number }, at: number, amount: number) => void {
  let last = Number.NaN;
  let [m0, m1, m2, m3, m4, m5, m6, m7, m8] = FROM_CONES;
  return (rgb, at, amount) => {
    if (amount !== last) {
      last = amount;
      const scaled = TO_CONES.map((v, k) => v * gains[Math.floor(k / 3)] ** amount);
      [m0, m1, m2, m3, m4, m5, m6, m7, m8] = multiply(FROM_CONES, scaled);
    }
    const r = rgb[at];
    const g = rgb[at + 1];
    const b = rgb[at + 2];
    rgb[at] = m0 * r + m1 * g + m2 * b;
    rgb[at + 1] = m3 * r + m4 * g + m5 * b;
    rgb[at + 2] = m6 * r + m7 * g + m8 * b;
  };
}

/** Cone responses of daylight at luminance 1. */
function conesOf(mired: number): Triple {
  const held = Math.min(WARMEST, Math.max(COOLEST, mired));
  const at = (m: number): Triple => {
    const { x, y } = daylight(1e6 / m);
    return transform(BRADFORD, [x / y, 1, (1 - x - y) / y]);
  };
  if (held === mired) return at(mired);
  // Beyond the ends: the logarithm of each response goes on at its last slope, so that no response turns negative.
  const end = at(held);
  const before = at(held + (mired > held ? -5 : 5));
  const steps = Math.abs(mired - held) / 5;
  return end.map((c, k) => c * (c / before[k]) ** steps) as unknown as Triple;
}

import {
  A98_RGB,
  type ColourSpace,
  type Curve,
  DISPLAY_P3,
  invert,
  multiply,
  SRGB,
  transform,
  XYZ_TO_SRGB,
} from '@halflight/engine';
import { adaptation } from './adapt.ts';

/** Chromaticities of white, red, green, blue as x, y in a row. */
type Chromaticities = readonly number[];

const D65 = [0.3127, 0.329];

/** Colour primaries of ITU-T H.273 (2021) table 2, those with a place in still pictures. */
const PRIMARIES: Record<number, Chromaticities> = {
  1: [...D65, 0.64, 0.33, 0.3, 0.6, 0.15, 0.06],
  4: [0.31, 0.316, 0.67, 0.33, 0.21, 0.71, 0.14, 0.08],
  5: [...D65, 0.64, 0.33, 0.29, 0.6, 0.15, 0.06],
  6: [...D65, 0.63, 0.34, 0.31, 0.595, 0.155, 0.07],
  7: [...D65, 0.63, 0.34, 0.31, 0.595, 0.155, 0.07],
  9: [...D65, 0.708, 0.292, 0.17, 0.797, 0.131, 0.046],
  11: [0.314, 0.351, 0.68, 0.32, 0.265, 0.69, 0.15, 0.06],
  12: [...D65, 0.68, 0.32, 0.265, 0.69, 0.15, 0.06],
};

const SRGB_CURVE: Curve = { kind: 'srgb' };

/**
 * Transfer characteristics of H.273 table 3. Those of video (1, 6, 14, 15) are shown by the sRGB curve: they
 * describe the camera, and a still picture that names them was in practice made and judged on such a screen
 * (common practice, no source).
 */
const TRANSFER: Record<number, Curve> = {
  1: SRGB_CURVE,
  2: SRGB_CURVE,
  4: { kind: 'power', exponent: 2.2 },
  5: { kind: 'power', exponent: 2.8 },
  6: SRGB_CURVE,
  8: { kind: 'power', exponent: 1 },
  13: SRGB_CURVE,
  14: SRGB_CURVE,
  15: SRGB_CURVE,
};

/** Perceptual quantiser and hybrid log-gamma: pictures for screens brighter than white. */
const HIGH_DYNAMIC_RANGE = [16, 18];

/** The space of a coded description; 'hdr' for brighter than white; null when the codes say nothing that is known. */
export function spaceOfCodes(primaries: number, transfer: number): ColourSpace | 'hdr' | null {
  if (HIGH_DYNAMIC_RANGE.includes(transfer)) return 'hdr';
  const curve = TRANSFER[transfer];
  const chromaticities = PRIMARIES[primaries];
  if (!curve || !chromaticities) return null;
  if (curve.kind === 'srgb' && primaries === 1) return SRGB;
  if (curve.kind === 'srgb' && primaries === 12) return DISPLAY_P3;
  const words: Record<number, string> = { 1: 'sRGB primaries', 9: 'BT.2020', 12: 'Display P3 primaries' };
  const name = `${words[primaries] ?? `primaries ${primaries}`}, ${curveWords(curve)}`;
  return { name, curves: [curve, curve, curve], toSrgb: matrixOf(chromaticities) };
}

function curveWords(curve: Curve): string {
  if (curve.kind !== 'power') return 'sRGB curve';
  return curve.exponent === 1 ? 'linear' : `gamma ${Number(curve.exponent.toFixed(2))}`;
}

/** Curve exponents that stand for the usual screen: PNG's 0.45455 and its roundings. */
const SCREEN_GAMMA = [0.44, 0.47] as const;
const SRGB_CHROMATICITIES = PRIMARIES[1];

/**
 * The space of PNG's gAMA and cHRM chunks; null when they say no more than an untagged picture does.
 *
 * A lone gAMA of a screen is what old programs wrote without thinking: it stays untagged, as in browsers.
 */
export function spaceOfGamma(
  gamma: number | undefined,
  chromaticities: Chromaticities | undefined,
): ColourSpace | null {
  if (gamma === undefined || !(gamma > 0.1 && gamma < 2)) return null;
  const screen = gamma > SCREEN_GAMMA[0] && gamma < SCREEN_GAMMA[1];
  if (!chromaticities && screen) return null;
  const where = chromaticities ?? SRGB_CHROMATICITIES;
  if (!where.every((v, i) => (i % 2 ? v > 0 : v >= 0) && v < 1)) return null;
  const near = (other: Chromaticities) => where.every((v, i) => Math.abs(v - other[i]) < 0.002);
  if (screen && near(SRGB_CHROMATICITIES)) return SRGB;
  const curve: Curve = { kind: 'power', exponent: 1 / gamma };
  const a98 = near([...D65, 0.64, 0.33, 0.21, 0.71, 0.15, 0.06]);
  if (a98 && screen) return A98_RGB;
  try {
    const toSrgb = near(SRGB_CHROMATICITIES) ? SRGB.toSrgb : matrixOf(where);
    const name = `${near(SRGB_CHROMATICITIES) ? 'sRGB primaries' : 'the file’s own primaries'}, ${curveWords(curve)}`;
    return { name, curves: [curve, curve, curve], toSrgb };
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/**
 * Linear light of primaries to linear sRGB, adapted to D65 by Bradford where the white differs.
 * Derivation of the matrix: SMPTE RP 177.
 */
function matrixOf(chromaticities: Chromaticities): number[] {
  const [wx, wy, rx, ry, gx, gy, bx, by] = chromaticities;
  const column = (x: number, y: number): [number, number, number] => [x / y, 1, (1 - x - y) / y];
  const [r, g, b] = [column(rx, ry), column(gx, gy), column(bx, by)];
  const primaries = [r[0], g[0], b[0], r[1], g[1], b[1], r[2], g[2], b[2]];
  const white = column(wx, wy);
  const gains = transform(invert(primaries), white);
  const toXyz = primaries.map((v, i) => v * gains[i % 3]);
  const toD65 = adaptation(white, column(D65[0], D65[1]));
  return multiply(XYZ_TO_SRGB, multiply(toD65, toXyz));
}

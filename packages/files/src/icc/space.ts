import {
  type ColourSpace,
  type Curve,
  DELIVERY_SPACES,
  type Matrix,
  multiply,
  type Triple,
  XYZ_TO_SRGB,
} from '@halflight/engine';
import { adaptation } from './adapt.ts';
import type { IccProfile } from './read.ts';

/** White of the profile connection space (ICC.1:2022 section 7.2.16), and D65 as CSS Color 4 has it. */
export const PCS_WHITE: Triple = [0.9642, 1, 0.8249];
const D65: Triple = [0.3127 / 0.329, 1, (1 - 0.3127 - 0.329) / 0.329];

/** Connection space to linear sRGB, exact for white: a grey in a profile stays a grey. */
export const PCS_TO_SRGB: Matrix = multiply(XYZ_TO_SRGB, adaptation(PCS_WHITE, D65));

const IDENTITY: Matrix = [1, 0, 0, 0, 1, 0, 0, 0, 1];

/** Largest difference of a matrix entry at which a space is taken for the known one: rounding in profiles is below. */
const KNOWN_TOLERANCE = 2e-3;

/**
 * The space of a profile that is curves and a matrix, exactly as written in it; null for any other profile.
 *
 * Read from the tags and not sampled through the library, because its route to XYZ is a fixed-point one with
 * steps of 1/32768: a tenth of the first 8-bit step (docs/files.md). Tests compare both.
 */
export function spaceOfProfile(profile: IccProfile): ColourSpace | null {
  if (profile.tables || profile.curves === null) return null;
  const name = profile.description || 'its own profile';
  if (profile.model === 'GRAY') {
    // With a Lab connection space the curve gives lightness, not light.
    if (profile.pcs !== 'XYZ ') return null;
    const [curve] = profile.curves;
    return known({ name, curves: [curve, curve, curve], toSrgb: IDENTITY }, 'grey');
  }
  if (profile.model !== 'RGB ' || profile.pcs !== 'XYZ ' || profile.colorants === null) return null;
  const [r, g, b] = profile.colorants;
  const toXyz = [r[0], g[0], b[0], r[1], g[1], b[1], r[2], g[2], b[2]];
  const toSrgb = multiply(PCS_TO_SRGB, toXyz);
  if (!toSrgb.every(Number.isFinite) || Math.abs(determinant(toSrgb)) < 1e-4) return null;
  const [red, green, blue] = profile.curves;
  const curves: [Curve, Curve, Curve] = [red, sameAs(red, green), sameAs(red, blue)];
  return known({ name, curves, toSrgb }, 'rgb');
}

/** Channels with equal curves share one, so that tables are made once. */
function sameAs(first: Curve, other: Curve): Curve {
  return sameCurve(first, other) ? first : other;
}

function sameCurve(a: Curve, b: Curve): boolean {
  if (a.kind === 'power') return b.kind === 'power' && a.exponent === b.exponent;
  if (a.kind === 'srgb') return b.kind === 'srgb';
  return (
    b.kind === 'table' && a.values.length === b.values.length && a.values.every((v, i) => v === b.values[i])
  );
}

/** The known space of CSS Color 4 in place of one that differs from it only by rounding. */
function known(space: ColourSpace, model: 'rgb' | 'grey'): ColourSpace {
  for (const candidate of Object.values(DELIVERY_SPACES)) {
    const curves = space.curves.every((curve, i) => sameCurve(curve, candidate.curves[i]));
    const matrix = space.toSrgb.every((v, i) => Math.abs(v - candidate.toSrgb[i]) < KNOWN_TOLERANCE);
    if (curves && matrix) return model === 'grey' ? { ...candidate, name: space.name } : candidate;
  }
  return space;
}

function determinant(m: Matrix): number {
  return (
    m[0] * (m[4] * m[8] - m[5] * m[7]) -
    m[1] * (m[3] * m[8] - m[5] * m[6]) +
    m[2] * (m[3] * m[7] - m[4] * m[6])
  );
}

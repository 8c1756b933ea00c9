import { type ColourSpace, invert, type Matrix, multiply } from '@halflight/engine';
import { PCS_TO_SRGB } from '../icc/space.ts';

/** Linear ProPhoto/ROMM primaries to XYZ D50 (CSS Color Module Level 4, section 17; ISO 22028-2). */
const ROMM_TO_XYZ_D50: Matrix = [
  0.7977666449006423, 0.13518129740053308, 0.0313477341283922, 0.2880748288194013, 0.711835234241873,
  0.00008993693872564, 0, 0, 0.8251046025104602,
];

/**
 * Where pictures with table profiles (CMYK, scanners, Lab) are brought to: 16 bit, ROMM primaries, plain power
 * 1.8. Wide enough for every surface colour; the step near black is below 1e-8 of white.
 */
export const WIDE_EXPONENT = 1.8;
const WIDE_TO_SRGB: Matrix = multiply(PCS_TO_SRGB, ROMM_TO_XYZ_D50);
export const SRGB_TO_WIDE: Matrix = invert(WIDE_TO_SRGB);

/** The wide space under the name of the profile that was brought to it. */
export function wideSpace(name: string): ColourSpace {
  const curve = { kind: 'power', exponent: WIDE_EXPONENT } as const;
  return { name: `${name}, brought to wide RGB`, curves: [curve, curve, curve], toSrgb: WIDE_TO_SRGB };
}

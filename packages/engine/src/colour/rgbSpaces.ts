import { invert, type Matrix, multiply } from './matrix.ts';
import type { ColourSpace, Curve } from './space.ts';

// Linear light to XYZ (D65) as exact fractions: CSS Color Module Level 4, section 17 (sample code).
/** Linear sRGB to XYZ, D65. */
export const SRGB_TO_XYZ: Matrix = [
  506752 / 1228815,
  87881 / 245763,
  12673 / 70218,
  87098 / 409605,
  175762 / 245763,
  12673 / 175545,
  7918 / 409605,
  87881 / 737289,
  1001167 / 1053270,
];
/** Linear Display P3 to XYZ, D65. */
export const P3_TO_XYZ: Matrix = [
  608311 / 1250200,
  189793 / 714400,
  198249 / 1000160,
  35783 / 156275,
  247089 / 357200,
  198249 / 2500400,
  0,
  32229 / 714400,
  5220557 / 5000800,
];
/** Linear a98-rgb to XYZ, D65. */
export const A98_TO_XYZ: Matrix = [
  573536 / 994567,
  263643 / 1420810,
  187206 / 994567,
  591459 / 1989134,
  6239551 / 9945670,
  374412 / 4972835,
  53769 / 1989134,
  351524 / 4972835,
  4929758 / 4972835,
];
/** XYZ (D65) to linear sRGB. */
export const XYZ_TO_SRGB: Matrix = invert(SRGB_TO_XYZ);

const same = (curve: Curve): [Curve, Curve, Curve] => [curve, curve, curve];

export const SRGB: ColourSpace = {
  name: 'sRGB',
  curves: same({ kind: 'srgb' }),
  toSrgb: [1, 0, 0, 0, 1, 0, 0, 0, 1],
};
export const DISPLAY_P3: ColourSpace = {
  name: 'Display P3',
  curves: same({ kind: 'srgb' }),
  toSrgb: multiply(XYZ_TO_SRGB, P3_TO_XYZ),
};
export const A98_RGB: ColourSpace = {
  name: 'a98-rgb',
  curves: same({ kind: 'power', exponent: 563 / 256 }),
  toSrgb: multiply(XYZ_TO_SRGB, A98_TO_XYZ),
};

/** The spaces a picture can be delivered in, by the names of CSS Color 4. */
export const DELIVERY_SPACES = { srgb: SRGB, 'display-p3': DISPLAY_P3, 'a98-rgb': A98_RGB } as const;

/** Colours of glowing bodies and of daylight, as linear sRGB of luminance 1. */
import { type Triple, transform, XYZ_TO_SRGB } from '@halflight/engine';
import type { Rgb } from './types.ts';

/** One lobe with different widths on its two sides (in nanometres). */
const lobe = (x: number, centre: number, left: number, right: number) =>
  Math.exp(-0.5 * ((x - centre) / (x < centre ? left : right)) ** 2);

/** CIE 1931 2° colour matching functions, in the fits of Wyman, Sloan & Shirley 2013 (JCGT 2:2). */
export function matching(nm: number): Triple {
  return [
    1.056 * lobe(nm, 599.8, 37.9, 31) + 0.362 * lobe(nm, 442, 16, 26.7) - 0.065 * lobe(nm, 501.1, 20.4, 26.2),
    0.821 * lobe(nm, 568.8, 46.9, 40.5) + 0.286 * lobe(nm, 530.9, 16.3, 31.1),
    1.217 * lobe(nm, 437, 11.8, 36) + 0.681 * lobe(nm, 459, 26, 13.8),
  ];
}

/** XYZ (Y = 1) of a glowing body of `kelvin` (Planck's law, c₂ = 0.014388 m·K), summed every 5 nm. */
export function planckXyz(kelvin: number): Triple {
  const sum: [number, number, number] = [0, 0, 0];
  for (let nm = 380; nm <= 780; nm += 5) {
    const power = (nm / 560) ** -5 / (Math.exp(0.014388 / (nm * 1e-9 * kelvin)) - 1);
    const m = matching(nm);
    for (let c = 0; c < 3; c++) sum[c]! += power * m[c]!;
  }
  return [sum[0] / sum[1], 1, sum[2] / sum[1]];
}

/** Linear sRGB (D65 white) of a glowing body, luminance 1, nothing below 0.01 (very low temperatures leave the gamut). */
export function planckian(kelvin: number): Rgb {
  const rgb = transform(XYZ_TO_SRGB, planckXyz(kelvin));
  return [Math.max(0.01, rgb[0]), Math.max(0.01, rgb[1]), Math.max(0.01, rgb[2])];
}

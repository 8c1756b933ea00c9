import { luminance } from '../../colour/cielab.ts';
import type { Triple } from '../../colour/matrix.ts';
import type { LightIntent } from '../../intent/intent.ts';
import { logColour } from './logColour.ts';

/** A light from two taps, or what is wrong with them and what to tap instead. */
export type TappedLight =
  | { readonly light: Extract<LightIntent, { kind: 'surface' }> }
  | { readonly trouble: string };

/** The lit place must be lighter than the shaded one by this in ℓ; a tenth of a stop is a change of pigment. */
const LEAST_DROP = 0.15;
/** More than this (about 6½ stops) is no shade of the same surface. */
const MOST_DROP = 4.5;
/** A light without any of this channel is never quite true; below, the colour of a dark place is noise. */
const DARKEST = 0.0008;

/**
 * Declares the light from two places of one surface, one lit, one in shade; which is which is seen by their
 * lightness.
 *
 * @param one @param other linear light, sRGB primaries
 */
export function lightFromTaps(one: Triple, other: Triple): TappedLight {
  const [lit, shade] = luminance(...one) >= luminance(...other) ? [one, other] : [other, one];
  if (Math.min(...shade) < DARKEST)
    return { trouble: 'The darker place is too dark to tell its colour. Tap a lighter part of the shade.' };
  const drop = logColour(...lit).l - logColour(...shade).l;
  if (drop < LEAST_DROP)
    return {
      trouble:
        'The two places are about equally light. Tap one surface where it is lit and where it is in shade.',
    };
  if (drop > MOST_DROP)
    return { trouble: 'The two places lie too far apart to be one surface. Tap nearer to each other.' };
  return { light: { kind: 'surface', lit: [...lit], shade: [...shade] } };
}

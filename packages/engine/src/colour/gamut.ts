import { invert, type Matrix, type Triple, transform } from './matrix.ts';
import { deltaOk, linearToOklab, oklabToLinear, oklabToOklch, oklchToOklab } from './oklab.ts';
import type { ColourSpace } from './space.ts';

// CSS Color 4, section 13.2: just noticeable difference and search tolerance, in OKLab units.
const JND = 0.02;
const EPSILON = 0.0001;

/** Matrix from linear sRGB to the linear light of a space. */
export function fromSrgb(space: ColourSpace): Matrix {
  return invert(space.toSrgb);
}

/** True when linear light (in the space's own primaries) lies within 0…1, give or take `slack`. */
export function inGamut(rgb: Triple, slack = 1e-6): boolean {
  return (
    rgb[0] >= -slack &&
    rgb[0] <= 1 + slack &&
    rgb[1] >= -slack &&
    rgb[1] <= 1 + slack &&
    rgb[2] >= -slack &&
    rgb[2] <= 1 + slack
  );
}

/**
 * Maps a colour into the gamut of a space: chroma is reduced at constant OKLCh lightness and hue until clipping is
 * no longer noticeable (CSS Color 4, section 13.2, "local MINDE"). A colour inside comes back unchanged.
 *
 * @param rgb linear sRGB light, unclipped
 * @returns linear sRGB light whose values in `space` lie within 0…1
 */
export function mapToGamut(rgb: Triple, space: ColourSpace): [number, number, number] {
  const into = fromSrgb(space);
  const own = transform(into, rgb);
  if (inGamut(own, 1e-9)) return [rgb[0], rgb[1], rgb[2]];
  const lab = linearToOklab(rgb);
  const [L, chroma, hue] = oklabToOklch(lab);
  if (L >= 1) return [1, 1, 1];
  if (L <= 0) return [0, 0, 0];

  const clip = (lin: Triple): [number, number, number] =>
    transform(
      space.toSrgb,
      transform(into, lin).map((x) => Math.min(1, Math.max(0, x))) as [number, number, number],
    );

  let clipped = clip(rgb);
  if (deltaOk(linearToOklab(clipped), lab) < JND) return clipped;
  let low = 0;
  let high = chroma;
  let lowInside = true;
  while (high - low > EPSILON) {
    const c = (low + high) / 2;
    const tryLab = oklchToOklab([L, c, hue]);
    const lin = oklabToLinear(tryLab);
    if (lowInside && inGamut(transform(into, lin), 1e-9)) {
      low = c;
      clipped = lin;
      continue;
    }
    clipped = clip(lin);
    const miss = deltaOk(linearToOklab(clipped), tryLab);
    if (miss < JND) {
      if (JND - miss < EPSILON) return clipped;
      lowInside = false;
      low = c;
    } else high = c;
  }
  return clipped;
}

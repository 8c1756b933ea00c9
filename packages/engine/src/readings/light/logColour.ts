/**
 * Log-chromaticity of linear light and its logarithmic mean.
 *
 * x = (ln R − ln G)/√2, y = (ln R + ln G − 2 ln B)/√6, ℓ = (ln R + ln G + ln B)/3: an orthogonal frame whose
 * first two axes know nothing of brightness. Under one light all surfaces keep their distances in (x, y), so a
 * change of light moves them all by the same vector (Finlayson, Hordley, Lu & Drew 2006, "On the removal of
 * shadows from images", IEEE PAMI 28). The logarithm of luminance in place of ℓ would depend on the surface.
 */
export interface LogColour {
  readonly x: number;
  readonly y: number;
  readonly l: number;
}

export const SQRT2 = Math.SQRT2;
export const SQRT6 = Math.sqrt(6);
/** Light below this (0…1) is taken as this, so that the logarithm stays finite. */
const FLOOR = 1e-5;

/** Log colour of linear light (sRGB primaries); values at or below zero count as the floor 10⁻⁵. */
export function logColour(r: number, g: number, b: number): LogColour {
  const R = Math.log(Math.max(r, FLOOR));
  const G = Math.log(Math.max(g, FLOOR));
  const B = Math.log(Math.max(b, FLOOR));
  return { x: (R - G) / SQRT2, y: (R + G - 2 * B) / SQRT6, l: (R + G + B) / 3 };
}

/** Linear light of a log colour; the inverse of `logColour`. */
export function fromLogColour(c: LogColour): [number, number, number] {
  const u = c.x / SQRT2;
  const v = c.y / SQRT6;
  return [Math.exp(c.l + u + v), Math.exp(c.l - u + v), Math.exp(c.l - 2 * v)];
}

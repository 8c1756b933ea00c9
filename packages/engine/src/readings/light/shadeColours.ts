import { luminance as luminanceOf } from '../../colour/cielab.ts';
import type { Triple } from '../../colour/matrix.ts';
import type { Ratio } from './curve.ts';

const luminance = (c: ArrayLike<number>): number => luminanceOf(c[0], c[1], c[2]);

/**
 * The colour a lit surface takes in this light at luminance `to`: moved along the curve from lit (k = 1) to the
 * k that gives it; below the fill's own luminance it only darkens, as it does in a corner.
 */
export function shadeOf(lit: ArrayLike<number>, q: Ratio, to: number): Triple {
  const at = (k: number): Triple => [
    (lit[0] * (1 + k * q[0])) / (1 + q[0]),
    (lit[1] * (1 + k * q[1])) / (1 + q[1]),
    (lit[2] * (1 + k * q[2])) / (1 + q[2]),
  ];
  const dark = luminance(at(0));
  const full = luminance(lit);
  if (!(full > dark)) return at(0);
  // Luminance is linear in k.
  const k = (to - dark) / (full - dark);
  if (k >= 0) return at(Math.min(1, k));
  const colour = at(0);
  const gain = dark > 0 ? to / dark : 0;
  return [colour[0] * gain, colour[1] * gain, colour[2] * gain];
}

/** The colours a surface goes through in this light, from lit down to luminance `to`: `steps` of them, evenly in ln Y. */
export function wayOf(lit: ArrayLike<number>, q: Ratio, to: number, steps: number): Triple[] {
  const from = luminance(lit);
  return Array.from({ length: steps }, (_, i) =>
    i === 0 ? [lit[0], lit[1], lit[2]] : shadeOf(lit, q, from * (to / from) ** (i / (steps - 1))),
  );
}

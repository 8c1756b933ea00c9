import { luminance as luminanceOf } from '../../colour/cielab.ts';
import type { Triple } from '../../colour/matrix.ts';
import type { Ratio } from './curve.ts';
import type { LightPlace } from './types.ts';

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

/**
 * A lit colour painted in the swapped light, as the scene's light would have it, at the same luminance. There key and
 * fill have changed over: fill K/s and key A·s with s the geometric mean of q = K/A, so that ρ(K/s + A·s) was painted
 * where ρ(K + A) should be.
 */
export function turnedBack(lit: ArrayLike<number>, q: Ratio): Triple {
  const s = Math.cbrt(q[0] * q[1] * q[2]);
  const turn = (c: number): number => (lit[c] * (1 + q[c])) / (q[c] / s + s);
  const turned: Triple = [turn(0), turn(1), turn(2)];
  const gain = luminance(lit) / luminance(turned);
  return [turned[0] * gain, turned[1] * gain, turned[2] * gain];
}

/**
 * The colours that the surface of a flagged place goes through in the scene's light, from lit to as dark as it is,
 * behind the air that lies before it: `steps` of them.
 */
export function wayOfPlace(
  { kind, lit, should, air = [0, 0, 0] }: Pick<LightPlace, 'kind' | 'lit' | 'should' | 'air'>,
  q: Ratio,
  steps: number,
): Triple[] {
  const clear: Triple = [lit[0] - air[0], lit[1] - air[1], lit[2] - air[2]];
  const start = kind === 'opposite' ? turnedBack(clear, q) : clear;
  return wayOf(start, q, luminance(should) - luminance(air), steps).map(
    (colour): Triple => [colour[0] + air[0], colour[1] + air[1], colour[2] + air[2]],
  );
}

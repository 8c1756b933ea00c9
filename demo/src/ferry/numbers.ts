/** Small arithmetic the landing is composed with. */
import type { Rgb } from '../scene/index.ts';

/** 0 below a, 1 above b, an S between (a may be the larger). */
export const smooth = (a: number, b: number, t: number): number => {
  const s = Math.min(1, Math.max(0, (t - a) / (b - a)));
  return s * s * (3 - 2 * s);
};

/** A light times a factor. */
export const strength = (c: Rgb, s: number): Rgb => [c[0] * s, c[1] * s, c[2] * s];

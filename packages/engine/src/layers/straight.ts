import type { Meet } from './meet.ts';

/** From colour times alpha to colour, in place. */
export function straighten(pixel: Float64Array): void {
  straightenAt(pixel, 0);
}

/** The same for four numbers from `at` on. */
export function straightenAt(pixel: Float64Array, at: number): void {
  const a = pixel[at + 3];
  const by = a > 0 ? 1 / a : 0;
  pixel[at] = Math.min(1, pixel[at] * by);
  pixel[at + 1] = Math.min(1, pixel[at + 1] * by);
  pixel[at + 2] = Math.min(1, pixel[at + 2] * by);
}

/** A meeting by its own arithmetic, which is on straight colours. */
export function meetStraight(
  meet: Meet,
  source: Float64Array,
  s: number,
  of: Float64Array,
  at: number,
  straight: Float64Array,
): void {
  for (let c = 0; c < 4; c++) straight[c] = of[at + c];
  straightenAt(straight, 0);
  meet(straight, 0, source[s], source[s + 1], source[s + 2], source[s + 3]);
  const a = straight[3];
  for (let c = 0; c < 3; c++) of[at + c] = a * straight[c];
  of[at + 3] = a;
}

import { invert, type Matrix, multiply, type Triple, transform } from '@halflight/engine';

/** Bradford cone responses: ICC.1:2022 annex E. */
const BRADFORD: Matrix = [0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296];

/** XYZ under one white to XYZ under another, by Bradford (ICC.1:2022 annex E). */
export function adaptation(from: Triple, to: Triple): number[] {
  const source = transform(BRADFORD, from);
  const target = transform(BRADFORD, to);
  const scale = [target[0] / source[0], 0, 0, 0, target[1] / source[1], 0, 0, 0, target[2] / source[2]];
  return multiply(invert(BRADFORD), multiply(scale, BRADFORD));
}

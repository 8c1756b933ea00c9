import { blur } from '../../numbers/blur.ts';
import { fft2 } from '../../numbers/fft2.ts';
import { type Plane, planeOf, stretch } from '../../numbers/plane.ts';

const SIDE = 64;
/** Blur of the saliency map in places of the 64 × 64 copy. */
const SIGMA = 2.5;

/**
 * Where the eye is drawn first, by the spectral residual: what the smoothed log spectrum of the picture can't
 * predict. Largest value 1.
 *
 * Source: Hou & Zhang 2007, "Saliency detection: a spectral residual approach" (CVPR), on L* over a 64 × 64 copy:
 * log amplitude less its 3 × 3 mean (around, since the spectrum is periodic), back with the phase, squared, blurred.
 * The paper leaves the blur open; σ = 2.5 places is our default.
 *
 * @param plane lightness of the whole view
 * @returns a map of 64 × 64 places
 */
export function spectralResidual(plane: Plane): Plane {
  const small = stretch(plane, SIDE, SIDE);
  const fft = fft2(SIDE, SIDE);
  const spectrum = fft.forward(small.data);
  const n = SIDE * SIDE;
  const log = new Float64Array(n);
  for (let p = 0; p < n; p++) log[p] = Math.log(Math.hypot(spectrum[2 * p], spectrum[2 * p + 1]) + 1e-12);
  const residual = new Float64Array(2 * n);
  for (let p = 0; p < n; p++) {
    const amplitude = Math.exp(log[p] - meanAround(log, p));
    const phase = Math.atan2(spectrum[2 * p + 1], spectrum[2 * p]);
    residual[2 * p] = amplitude * Math.cos(phase);
    residual[2 * p + 1] = amplitude * Math.sin(phase);
  }
  const back = fft.inverse(residual);
  const power = planeOf(SIDE, SIDE, (p) => back[2 * p] ** 2 + back[2 * p + 1] ** 2);
  const soft = blur(power, SIGMA);
  let most = 0;
  for (const v of soft.data) most = Math.max(most, v);
  return planeOf(SIDE, SIDE, (p) => (most > 0 ? soft.data[p] / most : 0));
}

function meanAround(log: Float64Array, p: number): number {
  const x = p % SIDE;
  const y = Math.floor(p / SIDE);
  let sum = 0;
  for (let dy = -1; dy <= 1; dy++)
    for (let dx = -1; dx <= 1; dx++) sum += log[((y + dy + SIDE) % SIDE) * SIDE + ((x + dx + SIDE) % SIDE)];
  return sum / 9;
}

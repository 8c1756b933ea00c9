import { fft2 } from '../numbers/fft2.ts';
import type { Plane } from '../numbers/plane.ts';

/**
 * Shift between two planes of one size by phase correlation.
 *
 * Source: Kuglin & Hines 1975, "The phase correlation image alignment method".
 *
 * @param spectrum that of `a`, where several planes are compared with it
 * @param size a power of two, at least the larger side of both planes
 * @returns (x, y) such that b(p − (x, y)) ≈ a(p), in places, within ± size / 2; and the height of the peak 0…1
 */
export function phaseCorrelation(
  a: Plane,
  b: Plane,
  size: number,
  spectrum = spectrumOf(a, size),
): { x: number; y: number; peak: number } {
  const fft = fft2(size, size);
  const A = spectrum;
  const B = fft.forward(centred(b, size));
  const cross = new Float64Array(A.length);
  for (let i = 0; i < A.length; i += 2) {
    const re = A[i] * B[i] + A[i + 1] * B[i + 1];
    const im = A[i + 1] * B[i] - A[i] * B[i + 1];
    const norm = Math.hypot(re, im) + 1e-9;
    cross[i] = re / norm;
    cross[i + 1] = im / norm;
  }
  const back = fft.inverse(cross);
  let best = 0;
  for (let p = 1; p < size * size; p++) if (back[2 * p] > back[2 * best]) best = p;
  const wrap = (v: number): number => (v > size / 2 ? v - size : v);
  return { x: wrap(best % size), y: wrap(Math.floor(best / size)), peak: back[2 * best] };
}

/** What `phaseCorrelation` needs of its first plane. */
export function spectrumOf(plane: Plane, size: number): Float64Array {
  return fft2(size, size).forward(centred(plane, size));
}

/** The plane less its mean in the upper left of a square of zeros, faded at its border so that the frame is no edge. */
function centred({ width, height, data }: Plane, size: number): Float64Array {
  let mean = 0;
  for (const v of data) mean += v / data.length;
  const out = new Float64Array(size * size);
  const fade = (i: number, n: number): number => Math.min(1, (Math.min(i, n - 1 - i) + 1) / (0.08 * n + 1));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      out[y * size + x] = (data[y * width + x] - mean) * fade(x, width) * fade(y, height);
  return out;
}

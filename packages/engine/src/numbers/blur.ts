import type { Plane } from './plane.ts';

/** Gaussian blur cut at 4 σ; borders are held. */
export function blur(plane: Plane, sigma: number): Plane {
  const r = Math.ceil(4 * sigma);
  const weights = Float64Array.from({ length: 2 * r + 1 }, (_, k) => Math.exp(-0.5 * ((k - r) / sigma) ** 2));
  const total = weights.reduce((a, b) => a + b, 0);
  for (let k = 0; k < weights.length; k++) weights[k] /= total;
  const { width, height, data } = plane;
  const out = new Float32Array(data.length);
  // Each line is laid out with its ends held, so that the inner loop has no border.
  const along = (from: Float32Array, start: number, stride: number, n: number): void => {
    const line = new Float64Array(n + 2 * r);
    for (let i = 0; i < line.length; i++)
      line[i] = from[start + stride * Math.min(n - 1, Math.max(0, i - r))];
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let k = 0; k < weights.length; k++) sum += weights[k] * line[i + k];
      out[start + stride * i] = sum;
    }
  };
  for (let y = 0; y < height; y++) along(data, y * width, 1, width);
  for (let x = 0; x < width; x++) along(out, x, width, height);
  return { width, height, data: out };
}

import type { Plane } from './plane.ts';

/** Gaussian blur cut at 4 σ; borders are held. */
export function blur(plane: Plane, sigma: number): Plane {
  const r = Math.ceil(4 * sigma);
  const weights = Array.from({ length: 2 * r + 1 }, (_, k) => Math.exp(-0.5 * ((k - r) / sigma) ** 2));
  const total = weights.reduce((a, b) => a + b, 0);
  const { width: w, height: h } = plane;
  const along = (data: Float32Array, dx: number, dy: number): Float32Array => {
    const out = new Float32Array(data.length);
    for (let y = 0; y < h; y++)
      for (let x = 0; x < w; x++) {
        let sum = 0;
        for (let k = -r; k <= r; k++) {
          const u = Math.min(w - 1, Math.max(0, x + k * dx));
          const v = Math.min(h - 1, Math.max(0, y + k * dy));
          sum += weights[k + r] * data[v * w + u];
        }
        out[y * w + x] = sum / total;
      }
    return out;
  };
  return { width: w, height: h, data: along(along(plane.data, 1, 0), 0, 1) };
}

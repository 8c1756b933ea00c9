import { type Plane, planeOf } from './plane.ts';

/**
 * Laplacian pyramid: each level holds what the next coarser one can't say; the last is the coarse rest.
 *
 * Source: Burt & Adelson 1983, "The Laplacian pyramid as a compact image code", kernel 1 4 6 4 1 / 16 (a = 0.375).
 * Borders are mirrored. `collapse` gives the picture back exactly, up to rounding.
 */
export function laplacianPyramid(plane: Plane, levels: number): Plane[] {
  const out: Plane[] = [];
  let current = plane;
  for (let k = 0; k < levels && Math.min(current.width, current.height) > 4; k++) {
    const smaller = reduce(current);
    const guess = expand(smaller, current.width, current.height);
    const here = current;
    out.push(planeOf(here.width, here.height, (p) => here.data[p] - guess.data[p]));
    current = smaller;
  }
  out.push(current);
  return out;
}

/** The picture of a pyramid. */
export function collapse(pyramid: readonly Plane[]): Plane {
  let current = pyramid[pyramid.length - 1];
  for (let k = pyramid.length - 2; k >= 0; k--) {
    const level = pyramid[k];
    const guess = expand(current, level.width, level.height);
    current = planeOf(level.width, level.height, (p) => level.data[p] + guess.data[p]);
  }
  return current;
}

const KERNEL = [1 / 16, 4 / 16, 6 / 16, 4 / 16, 1 / 16];
const mirror = (i: number, n: number): number =>
  i < 0 ? Math.min(n - 1, -i) : i >= n ? Math.max(0, 2 * n - 2 - i) : i;

function reduce({ width, height, data }: Plane): Plane {
  const w = (width + 1) >> 1;
  const h = (height + 1) >> 1;
  const narrow = new Float32Array(w * height);
  const at = [-2, -1, 0, 1, 2].map((k) => Int32Array.from({ length: w }, (_, x) => mirror(2 * x + k, width)));
  const [a, b, c, d, e] = at;
  for (let y = 0; y < height; y++) {
    const row = y * width;
    for (let x = 0; x < w; x++)
      narrow[y * w + x] =
        (data[row + a[x]] +
          data[row + e[x]] +
          4 * (data[row + b[x]] + data[row + d[x]]) +
          6 * data[row + c[x]]) /
        16;
  }
  const out = new Float32Array(w * h);
  for (let y = 0; y < h; y++)
    for (let k = -2; k <= 2; k++) {
      const from = mirror(2 * y + k, height) * w;
      for (let x = 0; x < w; x++) out[y * w + x] += KERNEL[k + 2] * narrow[from + x];
    }
  return { width: w, height: h, data: out };
}

function expand({ width, height, data }: Plane, w: number, h: number): Plane {
  const wide = new Float32Array(w * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < w; x++) {
      const i = x >> 1;
      const at = y * width;
      wide[y * w + x] =
        x & 1
          ? (data[at + i] + data[at + Math.min(width - 1, i + 1)]) / 2
          : (data[at + mirror(i - 1, width)] + 6 * data[at + i] + data[at + mirror(i + 1, width)]) / 8;
    }
  const out = new Float32Array(w * h);
  for (let y = 0; y < h; y++) {
    const i = y >> 1;
    const here = i * w;
    const next = Math.min(height - 1, i + 1) * w;
    const before = mirror(i - 1, height) * w;
    const after = mirror(i + 1, height) * w;
    for (let x = 0; x < w; x++)
      out[y * w + x] =
        y & 1
          ? (wide[here + x] + wide[next + x]) / 2
          : (wide[before + x] + 6 * wide[here + x] + wide[after + x]) / 8;
  }
  return { width: w, height: h, data: out };
}

import type { Plane } from './plane.ts';

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
    // What was guessed becomes what the guess left out: a second plane of this size would only be thrown away.
    const { data } = guess;
    for (let p = 0; p < data.length; p++) data[p] = current.data[p] - data[p];
    out.push(guess);
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
    for (let p = 0; p < guess.data.length; p++) guess.data[p] += level.data[p];
    current = guess;
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
  for (let y = 0; y < height; y++) {
    const at = y * width;
    for (let x = 0, to = y * w; x < w; x += 2, to += 2) {
      const i = x >> 1;
      const here = data[at + i];
      const next = data[at + Math.min(width - 1, i + 1)];
      const after = data[at + mirror(i + 1, width)];
      wide[to] = (data[at + mirror(i - 1, width)] + 6 * here + after) / 8;
      if (x + 1 < w) wide[to + 1] = (here + next) / 2;
    }
  }
  const out = new Float32Array(w * h);
  for (let y = 0; y < h; y++) {
    const i = y >> 1;
    const to = y * w;
    const here = i * w;
    if (y & 1) {
      const next = Math.min(height - 1, i + 1) * w;
      for (let x = 0; x < w; x++) out[to + x] = (wide[here + x] + wide[next + x]) / 2;
    } else {
      const before = mirror(i - 1, height) * w;
      const after = mirror(i + 1, height) * w;
      for (let x = 0; x < w; x++) out[to + x] = (wide[before + x] + 6 * wide[here + x] + wide[after + x]) / 8;
    }
  }
  return { width: w, height: h, data: out };
}

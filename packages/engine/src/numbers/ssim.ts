import type { Field } from '../views/view.ts';

// Wang, Bovik, Sheikh & Simoncelli 2004, "Image quality assessment: from error visibility to structural
// similarity", IEEE Trans. Image Processing 13/4: Gaussian window 11 × 11 with σ = 1.5, K1 = 0.01, K2 = 0.03.
const SIGMA = 1.5;
const RADIUS = 5;
const K1 = 0.01;
const K2 = 0.03;

/**
 * Mean structural similarity of two maps of one size, −1…1; 1 for equal maps.
 *
 * Places nearer than 5 pixels to the border are left out, as in the paper. Null for maps smaller than 11 × 11.
 *
 * @param range largest possible difference of two values (100 for L*)
 * @param weight how much each place counts in the mean, row-major; all alike when null
 */
export function structuralSimilarity(
  a: Field,
  b: Field,
  range: number,
  weight: ArrayLike<number> | null = null,
): number | null {
  const { width, height } = a;
  if (b.width !== width || b.height !== height) throw new RangeError('two maps of different size');
  if (width < 2 * RADIUS + 1 || height < 2 * RADIUS + 1) return null;
  const blur = (data: ArrayLike<number>): Float64Array => blurred(data, width, height);
  const ma = blur(a.data);
  const mb = blur(b.data);
  const aa = blur(product(a.data, a.data));
  const bb = blur(product(b.data, b.data));
  const ab = blur(product(a.data, b.data));

  const c1 = (K1 * range) ** 2;
  const c2 = (K2 * range) ** 2;
  let sum = 0;
  let total = 0;
  for (let y = RADIUS; y < height - RADIUS; y++)
    for (let x = RADIUS; x < width - RADIUS; x++) {
      const i = y * width + x;
      const w = weight ? weight[i] : 1;
      const u = ma[i] * mb[i];
      const squares = ma[i] * ma[i] + mb[i] * mb[i];
      const variances = aa[i] + bb[i] - squares;
      sum += w * (((2 * u + c1) * (2 * (ab[i] - u) + c2)) / ((squares + c1) * (variances + c2)));
      total += w;
    }
  return total > 0 ? sum / total : null;
}

const KERNEL = ((): Float64Array => {
  const k = Float64Array.from({ length: 2 * RADIUS + 1 }, (_, i) =>
    Math.exp(-0.5 * ((i - RADIUS) / SIGMA) ** 2),
  );
  const sum = k.reduce((s, v) => s + v, 0);
  return k.map((v) => v / sum);
})();

function product(p: Float32Array, q: Float32Array): Float64Array {
  const out = new Float64Array(p.length);
  for (let i = 0; i < out.length; i++) out[i] = p[i] * q[i];
  return out;
}

/** Gaussian mean of every place whose window lies inside; other places are left at 0. */
function blurred(data: ArrayLike<number>, width: number, height: number): Float64Array {
  const rows = new Float64Array(width * height);
  const out = new Float64Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = RADIUS; x < width - RADIUS; x++) {
      const at = y * width + x - RADIUS;
      let s = 0;
      for (let k = 0; k < KERNEL.length; k++) s += KERNEL[k] * data[at + k];
      rows[y * width + x] = s;
    }
  // Row by row: columns would jump through memory.
  for (let y = RADIUS; y < height - RADIUS; y++)
    for (let k = 0; k < KERNEL.length; k++) {
      const weight = KERNEL[k];
      const from = (y - RADIUS + k) * width;
      const to = y * width;
      for (let x = RADIUS; x < width - RADIUS; x++) out[to + x] += weight * rows[from + x];
    }
  return out;
}

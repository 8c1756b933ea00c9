import type { Field } from '../views/view.ts';
import { boxMean } from './boxFilter.ts';

/**
 * A field written as a local linear function of a guide picture: field ≈ a · guide + b at every place.
 *
 * `planes` are a₁, a₂, a₃ and b, each `width × height`. Applied to a larger copy of the guide, the coefficients
 * bring the field to the edges of the painting at full size.
 */
export interface GuideFit {
  readonly width: number;
  readonly height: number;
  readonly planes: readonly [Float32Array, Float32Array, Float32Array, Float32Array];
}

/**
 * Fits a field to a three-channel guide of the same size.
 *
 * Source: He, Sun, Tang 2010, "Guided image filtering" (ECCV), the colour guide of section 3.5.
 *
 * @param guide interleaved, three numbers a place, of the order of 0…1
 * @param radius of the window, in places
 * @param epsilon smoothing: edges with a variance well below it are ignored (guide units squared)
 * @throws RangeError when the sizes differ
 */
export function fitToGuide(guide: Float32Array, field: Field, radius: number, epsilon: number): GuideFit {
  const { width, height, data } = field;
  const n = width * height;
  if (guide.length !== 3 * n) throw new RangeError('guide and field must have the same size');
  const mean = (of: (p: number) => number): Float32Array => {
    const plane = new Float32Array(n);
    for (let p = 0; p < n; p++) plane[p] = of(p);
    boxMean(plane, width, height, radius, plane);
    return plane;
  };
  const g = [0, 1, 2].map((c) => mean((p) => guide[3 * p + c]));
  const v = mean((p) => data[p]);
  const gg = [
    [0, 0],
    [0, 1],
    [0, 2],
    [1, 1],
    [1, 2],
    [2, 2],
  ].map(([c, d]) => mean((p) => guide[3 * p + c] * guide[3 * p + d]));
  const gv = [0, 1, 2].map((c) => mean((p) => guide[3 * p + c] * data[p]));

  // Solves (Σ + εU) a = cov(guide, field), b = mean(field) − a · mean(guide); results overwrite gv and v.
  for (let p = 0; p < n; p++) {
    const [r0, g0, b0, v0] = [g[0][p], g[1][p], g[2][p], v[p]];
    const rr = gg[0][p] - r0 * r0 + epsilon;
    const rg = gg[1][p] - r0 * g0;
    const rb = gg[2][p] - r0 * b0;
    const g2 = gg[3][p] - g0 * g0 + epsilon;
    const gb = gg[4][p] - g0 * b0;
    const bb = gg[5][p] - b0 * b0 + epsilon;
    const cr = gv[0][p] - r0 * v0;
    const cg = gv[1][p] - g0 * v0;
    const cb = gv[2][p] - b0 * v0;
    const i00 = g2 * bb - gb * gb;
    const i01 = rb * gb - rg * bb;
    const i02 = rg * gb - rb * g2;
    const det = rr * i00 + rg * i01 + rb * i02;
    const ar = (i00 * cr + i01 * cg + i02 * cb) / det;
    const ag = (i01 * cr + (rr * bb - rb * rb) * cg + (rb * rg - rr * gb) * cb) / det;
    const ab = (i02 * cr + (rb * rg - rr * gb) * cg + (rr * g2 - rg * rg) * cb) / det;
    gv[0][p] = ar;
    gv[1][p] = ag;
    gv[2][p] = ab;
    v[p] = v0 - ar * r0 - ag * g0 - ab * b0;
  }
  for (const plane of [...gv, v]) boxMean(plane, width, height, radius, plane);
  return { width, height, planes: [gv[0], gv[1], gv[2], v] };
}

/** The field brought to the edges of its guide: the classic guided filter, same size in and out. */
export function guidedFilter(guide: Float32Array, field: Field, radius: number, epsilon: number): Field {
  const [a1, a2, a3, b] = fitToGuide(guide, field, radius, epsilon).planes;
  const out = new Float32Array(field.data.length);
  for (let p = 0; p < out.length; p++)
    out[p] = a1[p] * guide[3 * p] + a2[p] * guide[3 * p + 1] + a3[p] * guide[3 * p + 2] + b[p];
  return { width: field.width, height: field.height, data: out };
}

/**
 * Rows of the field at a larger size, held to 0…1: coefficients are read between their places and applied to the
 * larger guide.
 *
 * @returns a function that fills one row: `guideRow` is the interleaved guide of row `y`, three numbers a pixel
 */
export function rowsAt(
  fit: GuideFit,
  width: number,
  height: number,
): (guideRow: ArrayLike<number>, y: number, out: Float32Array) => void {
  const line = fit.planes.map(() => new Float32Array(fit.width));
  const [a1, a2, a3, b] = line;
  const left = new Int32Array(width);
  const part = new Float32Array(width);
  for (let x = 0; x < width; x++) {
    const u = Math.min(fit.width - 1, Math.max(0, ((x + 0.5) * fit.width) / width - 0.5));
    left[x] = Math.min(Math.max(0, fit.width - 2), Math.floor(u));
    part[x] = fit.width > 1 ? u - left[x] : 0;
  }
  return (guideRow, y, out) => {
    const v = Math.min(fit.height - 1, Math.max(0, ((y + 0.5) * fit.height) / height - 0.5));
    const y0 = Math.floor(v);
    const y1 = Math.min(fit.height - 1, y0 + 1);
    for (let c = 0; c < 4; c++)
      for (let x = 0; x < fit.width; x++) {
        const top = fit.planes[c][y0 * fit.width + x];
        line[c][x] = top + (v - y0) * (fit.planes[c][y1 * fit.width + x] - top);
      }
    for (let x = 0; x < width; x++) {
      const i = left[x];
      const j = Math.min(fit.width - 1, i + 1);
      const t = part[x];
      const value =
        (a1[i] + t * (a1[j] - a1[i])) * guideRow[3 * x] +
        (a2[i] + t * (a2[j] - a2[i])) * guideRow[3 * x + 1] +
        (a3[i] + t * (a3[j] - a3[i])) * guideRow[3 * x + 2] +
        b[i] +
        t * (b[j] - b[i]);
      out[x] = Math.min(1, Math.max(0, value));
    }
  };
}

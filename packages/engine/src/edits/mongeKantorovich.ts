import { type Matrix, multiply } from '../colour/matrix.ts';

/** Below this share of the largest, a variance is taken for rounding: its direction is not stretched. */
const TINY = 1e-9;

/**
 * The linear map of least transport between two Gaussians: T = A^−½ (A^½ B A^½)^½ A^−½.
 *
 * Source: Pitié & Kokaram 2007, "The linear Monge–Kantorovitch linear colour mapping for example-based colour
 * transfer". After it, colours of covariance `a` have covariance `b`. Directions in which `a` has no spread stay as
 * they are.
 *
 * @param a covariance of the picture, symmetric 3 × 3, row-major
 * @param b covariance of the example
 */
export function mongeKantorovich(a: Matrix, b: Matrix): number[] {
  const root = power(a, 0.5);
  const inner = power(multiply(multiply(root, b), root), 0.5);
  const back = power(a, -0.5);
  return multiply(multiply(back, inner), back);
}

/** A power of a symmetric positive matrix, by its own axes. */
function power(m: Matrix, exponent: number): number[] {
  const { values, vectors } = eigen(m);
  const least = TINY * Math.max(...values);
  const out = new Array<number>(9).fill(0);
  values.forEach((value, k) => {
    const scale = value > least ? value ** exponent : exponent < 0 ? 0 : Math.max(0, value) ** exponent;
    for (let i = 0; i < 3; i++)
      for (let j = 0; j < 3; j++) out[3 * i + j] += scale * vectors[k][i] * vectors[k][j];
  });
  return out;
}

/** Eigenvalues and unit eigenvectors of a symmetric 3 × 3 matrix by Jacobi rotations (Golub & Van Loan, section 8.5). */
function eigen(m: Matrix): { values: number[]; vectors: number[][] } {
  const a = [m.slice(0, 3), m.slice(3, 6), m.slice(6, 9)].map((row) => [...row]);
  const v = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  for (let sweep = 0; sweep < 30; sweep++) {
    const off = Math.abs(a[0][1]) + Math.abs(a[0][2]) + Math.abs(a[1][2]);
    if (off < 1e-300) break;
    for (const [p, q] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ]) {
      if (a[p][q] === 0) continue;
      const theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
      const t = Math.sign(theta || 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
      const c = 1 / Math.sqrt(t * t + 1);
      const s = t * c;
      for (let k = 0; k < 3; k++) [a[k][p], a[k][q]] = [c * a[k][p] - s * a[k][q], s * a[k][p] + c * a[k][q]];
      for (let k = 0; k < 3; k++) [a[p][k], a[q][k]] = [c * a[p][k] - s * a[q][k], s * a[p][k] + c * a[q][k]];
      for (let k = 0; k < 3; k++) [v[k][p], v[k][q]] = [c * v[k][p] - s * v[k][q], s * v[k][p] + c * v[k][q]];
    }
  }
  return { values: [0, 1, 2].map((k) => a[k][k]), vectors: [0, 1, 2].map((k) => v.map((row) => row[k])) };
}

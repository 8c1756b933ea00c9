/** A 3 × 3 matrix, row-major. */
export type Matrix = readonly number[];
export type Triple = readonly [number, number, number];

/** Product a·b of two 3 × 3 matrices. */
export function multiply(a: Matrix, b: Matrix): number[] {
  const out: number[] = [];
  for (let i = 0; i < 3; i++)
    for (let j = 0; j < 3; j++) out.push(a[3 * i] * b[j] + a[3 * i + 1] * b[3 + j] + a[3 * i + 2] * b[6 + j]);
  return out;
}

/** Product of a 3 × 3 matrix and a column. */
export function transform(m: Matrix, v: Triple): [number, number, number] {
  return [
    m[0] * v[0] + m[1] * v[1] + m[2] * v[2],
    m[3] * v[0] + m[4] * v[1] + m[5] * v[2],
    m[6] * v[0] + m[7] * v[1] + m[8] * v[2],
  ];
}

/** Inverse of a 3 × 3 matrix. Throws RangeError when it has none. */
export function invert(m: Matrix): number[] {
  const [a, b, c, d, e, f, g, h, i] = m;
  const A = e * i - f * h;
  const B = f * g - d * i;
  const C = d * h - e * g;
  const det = a * A + b * B + c * C;
  if (!Number.isFinite(1 / det)) throw new RangeError('a matrix without an inverse');
  return [
    A,
    c * h - b * i,
    b * f - c * e,
    B,
    a * i - c * g,
    c * d - a * f,
    C,
    b * g - a * h,
    a * e - b * d,
  ].map((x) => x / det);
}

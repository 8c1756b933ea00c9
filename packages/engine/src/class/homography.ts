/** A point in pixels. */
export type Corner = readonly [x: number, y: number];
/** Corners of a quadrilateral: upper left, upper right, lower right, lower left. */
export type Corners = readonly [Corner, Corner, Corner, Corner];

/**
 * The projective map that takes four points to four others: nine numbers, row by row, the last one 1.
 *
 * Source: Hartley & Zisserman 2004, "Multiple View Geometry in Computer Vision", 4.1 (direct linear transformation).
 *
 * @returns null when three of the points lie on a line
 */
export function homography(from: Corners, to: Corners): number[] | null {
  const rows: number[][] = [];
  for (let k = 0; k < 4; k++) {
    const [x, y] = from[k];
    const [u, v] = to[k];
    rows.push([x, y, 1, 0, 0, 0, -u * x, -u * y, u], [0, 0, 0, x, y, 1, -v * x, -v * y, v]);
  }
  const solved = solve(rows);
  return solved && [...solved, 1];
}

/** Where a projective map takes a point. */
export function project(h: readonly number[], x: number, y: number): [number, number] {
  const w = h[6] * x + h[7] * y + h[8];
  return [(h[0] * x + h[1] * y + h[2]) / w, (h[3] * x + h[4] * y + h[5]) / w];
}

/** Gaussian elimination with the largest pivot; the last column is the right side. */
function solve(rows: number[][]): number[] | null {
  const n = rows.length;
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let r = column + 1; r < n; r++)
      if (Math.abs(rows[r][column]) > Math.abs(rows[pivot][column])) pivot = r;
    if (Math.abs(rows[pivot][column]) < 1e-12) return null;
    [rows[column], rows[pivot]] = [rows[pivot], rows[column]];
    for (let r = 0; r < n; r++) {
      if (r === column) continue;
      const factor = rows[r][column] / rows[column][column];
      for (let c = column; c <= n; c++) rows[r][c] -= factor * rows[column][c];
    }
  }
  return rows.map((row, k) => row[n] / row[k]);
}

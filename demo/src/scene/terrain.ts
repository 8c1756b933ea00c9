/** A height field as a grid of bilinear patches, with the ray's way through it. */

/** Nodes of (cellsX + 1)·(cellsZ + 1) heights over ± sizeX/2, ± sizeZ/2, with the range of heights per block of cells. */
export interface Grid {
  readonly nx: number;
  readonly nz: number;
  readonly halfX: number;
  readonly halfZ: number;
  readonly cellX: number;
  readonly cellZ: number;
  readonly height: Float64Array;
  readonly min: number;
  readonly max: number;
  /** Highest and lowest node of each block of BLOCK × BLOCK cells. */
  readonly blockMax: Float64Array;
  readonly blockMin: Float64Array;
  readonly blocksX: number;
}

const BLOCK = 8;

/** Samples the height function at the nodes. */
export function gridOf(
  size: readonly [number, number],
  cells: readonly [number, number],
  height: (x: number, z: number) => number,
): Grid {
  const [nx, nz] = cells;
  const data = new Float64Array((nx + 1) * (nz + 1));
  let min = Infinity;
  let max = -Infinity;
  for (let j = 0; j <= nz; j++)
    for (let i = 0; i <= nx; i++) {
      const h = height((i / nx - 0.5) * size[0], (j / nz - 0.5) * size[1]);
      data[j * (nx + 1) + i] = h;
      if (h < min) min = h;
      if (h > max) max = h;
    }
  const blocksX = Math.ceil(nx / BLOCK);
  const blocksZ = Math.ceil(nz / BLOCK);
  const blockMax = new Float64Array(blocksX * blocksZ).fill(-Infinity);
  const blockMin = new Float64Array(blocksX * blocksZ).fill(Infinity);
  for (let j = 0; j < nz; j++)
    for (let i = 0; i < nx; i++) {
      const b = Math.floor(j / BLOCK) * blocksX + Math.floor(i / BLOCK);
      const n = j * (nx + 1) + i;
      const top = Math.max(data[n]!, data[n + 1]!, data[n + nx + 1]!, data[n + nx + 2]!);
      const bottom = Math.min(data[n]!, data[n + 1]!, data[n + nx + 1]!, data[n + nx + 2]!);
      if (top > blockMax[b]!) blockMax[b] = top;
      if (bottom < blockMin[b]!) blockMin[b] = bottom;
    }
  return {
    nx,
    nz,
    halfX: size[0] / 2,
    halfZ: size[1] / 2,
    cellX: size[0] / nx,
    cellZ: size[1] / nz,
    height: data,
    min,
    max,
    blockMax,
    blockMin,
    blocksX,
  };
}

/** Nearest distance > tMin along the ray (local coordinates) at which it meets the surface, or Infinity. */
export function hitGrid(
  g: Grid,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
  tMax: number,
): number {
  // The part of the ray inside the field's box.
  let t0 = tMin;
  let t1 = tMax;
  const ix = 1 / (dx || 1e-12);
  const iz = 1 / (dz || 1e-12);
  const iy = 1 / (dy || 1e-12);
  let a = (-g.halfX - ox) * ix;
  let b = (g.halfX - ox) * ix;
  t0 = Math.max(t0, Math.min(a, b));
  t1 = Math.min(t1, Math.max(a, b));
  a = (-g.halfZ - oz) * iz;
  b = (g.halfZ - oz) * iz;
  t0 = Math.max(t0, Math.min(a, b));
  t1 = Math.min(t1, Math.max(a, b));
  a = (g.min - 1e-9 - oy) * iy;
  b = (g.max + 1e-9 - oy) * iy;
  t0 = Math.max(t0, Math.min(a, b));
  t1 = Math.min(t1, Math.max(a, b));
  if (t0 >= t1) return Infinity;

  // In units of cells.
  const U = (ox + g.halfX) / g.cellX;
  const V = (oz + g.halfZ) / g.cellZ;
  const du = dx / g.cellX;
  const dv = dz / g.cellZ;
  const stepI = du >= 0 ? 1 : -1;
  const stepJ = dv >= 0 ? 1 : -1;
  const iu = 1 / (Math.abs(du) || 1e-12);
  const iv = 1 / (Math.abs(dv) || 1e-12);
  let t = t0;
  let i = Math.min(g.nx - 1, Math.max(0, Math.floor(U + t * du)));
  let j = Math.min(g.nz - 1, Math.max(0, Math.floor(V + t * dv)));
  const stride = g.nx + 1;
  for (let guard = 0; guard < 8 * (g.nx + g.nz); guard++) {
    // Leave out a whole block that the ray passes above or below.
    const bi = Math.floor(i / BLOCK);
    const bj = Math.floor(j / BLOCK);
    const lastI = stepI > 0 ? Math.min(g.nx, (bi + 1) * BLOCK) : bi * BLOCK;
    const lastJ = stepJ > 0 ? Math.min(g.nz, (bj + 1) * BLOCK) : bj * BLOCK;
    const outU = Math.abs(lastI - (U + t * du)) * iu;
    const outV = Math.abs(lastJ - (V + t * dv)) * iv;
    const tOut = Math.min(t + Math.min(outU, outV), t1);
    const yIn = oy + t * dy;
    const yOut = oy + tOut * dy;
    const block = bj * g.blocksX + bi;
    if (Math.min(yIn, yOut) > g.blockMax[block]! + 1e-9 || Math.max(yIn, yOut) < g.blockMin[block]! - 1e-9) {
      if (tOut >= t1) return Infinity;
      t = tOut;
      if (outU <= outV) {
        i = stepI > 0 ? lastI : lastI - 1;
        j = clampInto(Math.floor(V + t * dv), bj * BLOCK, Math.min(g.nz, (bj + 1) * BLOCK) - 1);
      } else {
        j = stepJ > 0 ? lastJ : lastJ - 1;
        i = clampInto(Math.floor(U + t * du), bi * BLOCK, Math.min(g.nx, (bi + 1) * BLOCK) - 1);
      }
      if (i < 0 || j < 0 || i >= g.nx || j >= g.nz) return Infinity;
      continue;
    }
    // One cell: along a straight line a bilinear patch is a quadratic in t.
    const edgeU = Math.abs((stepI > 0 ? i + 1 : i) - (U + t * du)) * iu;
    const edgeV = Math.abs((stepJ > 0 ? j + 1 : j) - (V + t * dv)) * iv;
    const tNext = Math.min(t + Math.min(edgeU, edgeV), t1);
    const n = j * stride + i;
    const h00 = g.height[n]!;
    const h10 = g.height[n + 1]!;
    const h01 = g.height[n + stride]!;
    const h11 = g.height[n + stride + 1]!;
    const e = h00 - h10 - h01 + h11;
    const u0 = U - i;
    const v0 = V - j;
    const qa = -e * du * dv;
    const qb = dy - ((h10 - h00) * du + (h01 - h00) * dv + e * (u0 * dv + v0 * du));
    const qc = oy - (h00 + (h10 - h00) * u0 + (h01 - h00) * v0 + e * u0 * v0);
    const slack = 1e-9 * (1 + tNext);
    const root = firstRoot(qa, qb, qc, Math.max(t - slack, tMin), tNext + slack);
    if (root < Infinity) return root;
    if (tNext >= t1) return Infinity;
    t = tNext;
    if (edgeU <= edgeV) i += stepI;
    else j += stepJ;
    if (i < 0 || j < 0 || i >= g.nx || j >= g.nz) return Infinity;
  }
  return Infinity;
}

function clampInto(v: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, v));
}

/** Smallest root of a·t² + b·t + c in [from, to], or Infinity. */
function firstRoot(a: number, b: number, c: number, from: number, to: number): number {
  if (Math.abs(a) < 1e-14) {
    if (b === 0) return Infinity;
    const t = -c / b;
    return t >= from && t <= to ? t : Infinity;
  }
  const d = b * b - 4 * a * c;
  if (d < 0) return Infinity;
  // The stable pair of roots.
  const q = -0.5 * (b + (b < 0 ? -Math.sqrt(d) : Math.sqrt(d)));
  const r1 = q / a;
  const r2 = q === 0 ? r1 : c / q;
  const low = Math.min(r1, r2);
  const high = Math.max(r1, r2);
  if (low >= from && low <= to) return low;
  if (high >= from && high <= to) return high;
  return Infinity;
}

/** Smooth upward normal at (x, z): slopes of the nodes, interpolated. Written into `out`, unit length. */
export function gridNormal(g: Grid, x: number, z: number, out: Float64Array): void {
  const u = clampInto((x + g.halfX) / g.cellX, 0, g.nx - 1e-9);
  const v = clampInto((z + g.halfZ) / g.cellZ, 0, g.nz - 1e-9);
  const i = Math.floor(u);
  const j = Math.floor(v);
  const fu = u - i;
  const fv = v - j;
  let sx = 0;
  let sz = 0;
  for (let b = 0; b < 2; b++)
    for (let a = 0; a < 2; a++) {
      const w = (a ? fu : 1 - fu) * (b ? fv : 1 - fv);
      sx += w * slope(g, i + a, j + b, 1, 0);
      sz += w * slope(g, i + a, j + b, 0, 1);
    }
  const l = 1 / Math.sqrt(sx * sx + sz * sz + 1);
  out[0] = -sx * l;
  out[1] = l;
  out[2] = -sz * l;
}

function slope(g: Grid, i: number, j: number, a: number, b: number): number {
  const i0 = Math.max(0, i - a);
  const i1 = Math.min(g.nx, i + a);
  const j0 = Math.max(0, j - b);
  const j1 = Math.min(g.nz, j + b);
  const run = (i1 - i0) * g.cellX + (j1 - j0) * g.cellZ;
  return (g.height[j1 * (g.nx + 1) + i1]! - g.height[j0 * (g.nx + 1) + i0]!) / run;
}

import type { Regions } from './regions.ts';

/** Pairs of regions, each with the brighter one first. */
export interface Pairs {
  readonly count: number;
  readonly bright: Int32Array;
  readonly dark: Int32Array;
  /** Change from dark to bright. */
  readonly dx: Float64Array;
  readonly dy: Float64Array;
  readonly dl: Float64Array;
  /** Between the middles, pixels. */
  readonly distance: Float64Array;
}

/** All pairs of valid regions whose middles lie within `radius` pixels and differ by less than `most` in ℓ. */
export function nearPairs(regions: Regions, valid: Uint8Array, radius: number, most: number): Pairs {
  const { count, px, py, x, y, l } = regions;
  const { width, height } = regions.segmentation;
  const columns = Math.ceil(width / radius) + 1;
  const rows = Math.ceil(height / radius) + 1;
  const cells: number[][] = Array.from({ length: columns * rows }, () => []);
  const cellOf = (i: number) => Math.floor(py[i] / radius) * columns + Math.floor(px[i] / radius);
  for (let i = 0; i < count; i++) if (valid[i]) cells[cellOf(i)].push(i);

  const bright: number[] = [];
  const dark: number[] = [];
  const distance: number[] = [];
  for (let i = 0; i < count; i++) {
    if (!valid[i]) continue;
    const cx = Math.floor(px[i] / radius);
    const cy = Math.floor(py[i] / radius);
    for (let v = Math.max(0, cy - 1); v <= Math.min(rows - 1, cy + 1); v++) {
      for (let u = Math.max(0, cx - 1); u <= Math.min(columns - 1, cx + 1); u++) {
        for (const j of cells[v * columns + u]) {
          if (j <= i) continue;
          const d = Math.hypot(px[i] - px[j], py[i] - py[j]);
          if (d > radius || Math.abs(l[i] - l[j]) >= most) continue;
          const iBright = l[i] >= l[j];
          bright.push(iBright ? i : j);
          dark.push(iBright ? j : i);
          distance.push(d);
        }
      }
    }
  }
  const n = bright.length;
  const pairs: Pairs = {
    count: n,
    bright: Int32Array.from(bright),
    dark: Int32Array.from(dark),
    dx: new Float64Array(n),
    dy: new Float64Array(n),
    dl: new Float64Array(n),
    distance: Float64Array.from(distance),
  };
  for (let p = 0; p < n; p++) {
    const i = bright[p];
    const j = dark[p];
    pairs.dx[p] = x[i] - x[j];
    pairs.dy[p] = y[i] - y[j];
    pairs.dl[p] = l[i] - l[j];
  }
  return pairs;
}

import type { Regions } from './regions.ts';

/** Half width of the plane of slopes, its grid and step. */
const REACH = 1.2;
const GRID = 121;
const MIDDLE = 60;
const STEP = (2 * REACH) / (GRID - 1);
/** Size of a cell of chromaticity: votes from one cell count as one surface. */
const CELL = 0.25;
/** Slopes shorter than this are darkening without a change of colour. */
const STILL = 0.08;

/** What neighbouring regions say about the light of the scene. */
export interface Votes {
  /** Mode of the antisymmetric density: change of log-chromaticity per unit of ℓ, from dark to light. */
  readonly x: number;
  readonly y: number;
  /** Antisymmetric part against density at the mode, −1…1: 1 when no vote goes the other way. */
  readonly antisymmetry: number;
  /** Antisymmetric part at the mode against the density of plain darkening. */
  readonly carries: number;
  /** Number of different surfaces (cells of chromaticity) behind the mode: exponential of their entropy. */
  readonly surfaces: number;
  /** Neighbouring pairs that voted. */
  readonly pairs: number;
  /** Cells of chromaticity that voted at all, as an effective number. */
  readonly cells: number;
}

/**
 * The scene's shift: every pair of neighbouring regions, from dark to light, votes with its slope ΔC/Δℓ.
 *
 * One border of two materials must not win: votes are gathered per cell of chromaticity, and the cells combined
 * as (Σ√D)²/n. Borders of materials vote both ways alike, a light only one way: the mode is that of
 * D(s) − D(−s) away from zero.
 */
export function castVotes(regions: Regions, valid: Uint8Array): Votes {
  const { count, first, neighbour, border, x, y, l } = regions;
  const cells = new Map<string, Float64Array>();
  const weights = new Map<string, number>();
  const ex = new Float64Array(GRID);
  const ey = new Float64Array(GRID);
  let pairs = 0;
  for (let a = 0; a < count; a++) {
    if (!valid[a]) continue;
    for (let e = first[a]; e < first[a + 1]; e++) {
      const b = neighbour[e];
      if (!valid[b]) continue;
      const dl = l[b] - l[a];
      if (dl <= 0.3 || dl >= 3) continue;
      const sx = (x[b] - x[a]) / dl;
      const sy = (y[b] - y[a]) / dl;
      if (Math.abs(sx) >= REACH || Math.abs(sy) >= REACH) continue;
      const key = `${Math.round((x[a] + x[b]) / 2 / CELL)} ${Math.round((y[a] + y[b]) / 2 / CELL)}`;
      let density = cells.get(key);
      if (!density) {
        density = new Float64Array(GRID * GRID);
        cells.set(key, density);
      }
      weights.set(key, (weights.get(key) ?? 0) + border[e]);
      pairs++;
      const sigma = Math.max(0.06 / dl, 0.05);
      stamp(density, sx, sy, sigma, (0.0025 * border[e]) / (sigma * sigma), ex, ey);
    }
  }

  const list = [...cells.values()];
  const total = new Float64Array(GRID * GRID);
  for (const density of list) for (let i = 0; i < total.length; i++) total[i] += Math.sqrt(density[i]);
  for (let i = 0; i < total.length; i++) total[i] = (total[i] * total[i]) / Math.max(1, list.length);

  let best = -1;
  let most = 0;
  for (let i = 0; i < total.length; i++) {
    const sx = (Math.floor(i / GRID) - MIDDLE) * STEP;
    const sy = ((i % GRID) - MIDDLE) * STEP;
    const a = total[i] - total[total.length - 1 - i];
    if (a > most && Math.hypot(sx, sy) > STILL) {
      most = a;
      best = i;
    }
  }
  const voting = entropyNumber([...weights.values()]);
  if (best < 0) return { x: 0, y: 0, antisymmetry: 0, carries: 0, surfaces: 0, pairs, cells: voting };
  const zero = total[MIDDLE * GRID + MIDDLE];
  return {
    x: (Math.floor(best / GRID) - MIDDLE) * STEP,
    y: ((best % GRID) - MIDDLE) * STEP,
    antisymmetry: most / total[best],
    carries: zero > 0 ? most / zero : Number.MAX_VALUE,
    surfaces: entropyNumber(list.map((d) => Math.max(0, d[best] - d[d.length - 1 - best]))),
    pairs,
    cells: voting,
  };
}

function stamp(
  density: Float64Array,
  sx: number,
  sy: number,
  sigma: number,
  weight: number,
  ex: Float64Array,
  ey: Float64Array,
): void {
  const reach = 4 * sigma;
  const from = (v: number) => Math.max(0, Math.ceil((v - reach + REACH) / STEP));
  const to = (v: number) => Math.min(GRID - 1, Math.floor((v + reach + REACH) / STEP));
  const [x0, x1, y0, y1] = [from(sx), to(sx), from(sy), to(sy)];
  for (let i = x0; i <= x1; i++) ex[i] = Math.exp(-0.5 * (((i - MIDDLE) * STEP - sx) / sigma) ** 2);
  for (let j = y0; j <= y1; j++) ey[j] = Math.exp(-0.5 * (((j - MIDDLE) * STEP - sy) / sigma) ** 2);
  for (let i = x0; i <= x1; i++) {
    const w = weight * ex[i];
    for (let j = y0; j <= y1; j++) density[i * GRID + j] += w * ey[j];
  }
}

/** exp(−Σ p ln p): how many equal parts would be as even. */
export function entropyNumber(parts: readonly number[]): number {
  const sum = parts.reduce((a, b) => a + b, 0);
  if (!(sum > 0)) return 0;
  let h = 0;
  for (const p of parts) if (p > 0) h -= (p / sum) * Math.log(p / sum);
  return Math.exp(h);
}

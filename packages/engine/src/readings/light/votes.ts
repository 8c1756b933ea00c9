import type { Pairs } from './pairs.ts';
import type { Regions } from './regions.ts';

/** The plane of slopes: half width, nodes a side, middle node, step. */
const REACH = 1.2;
const GRID = 61;
const MIDDLE = (GRID - 1) / 2;
const STEP = (2 * REACH) / (GRID - 1);
const NODES = GRID * GRID;
/** Size of a cell of log-chromaticity: votes from one cell count as one surface. */
export const CELL = 0.25;
/** Slopes shorter than this are darkening without a change of colour. */
const STILL = 0.1;
/** Differences of ℓ that tell a slope. */
export const LEAST_DROP = 0.3;
export const MOST_DROP = 3;
/** Directions nearer than this (degrees) are one candidate. */
const APART = 25;
const CANDIDATES = 4;

/** A direction of change that several surfaces share. */
export interface Candidate {
  /** Change of log-chromaticity per unit of ℓ, from dark to light. */
  readonly x: number;
  readonly y: number;
  /** Antisymmetric part of the density there. */
  readonly strength: number;
  /** The same as a share of the density, 0…1: 1 when no vote goes the other way. */
  readonly antisymmetry: number;
  /** Number of different surfaces behind it: exponential of the entropy of their roots. */
  readonly surfaces: number;
  /** Number of colours behind it, counted across the direction: one pigment that varies along it counts once. */
  readonly colours: number;
}

/** What pairs of regions say about the light of the scene. */
export interface Votes {
  /** The strongest first. */
  readonly candidates: readonly Candidate[];
  /** Density of plain darkening. */
  readonly still: number;
  /** Number of different surfaces behind plain darkening. */
  readonly stillSurfaces: number;
  /** Pairs that voted. */
  readonly pairs: number;
}

/**
 * The scene's shift: every pair of near regions, from dark to light, votes with its slope ΔC/Δℓ.
 *
 * One border of two materials must not win: votes are gathered per cell of chromaticity, and the cells combined
 * as D = (Σ√D_c)²/n. Borders of materials vote both ways alike, a light only one way: candidates are the maxima
 * of D(s) − D(−s) away from zero.
 */
export function castVotes(regions: Regions, pairs: Pairs, radius: number): Votes {
  const cells = gather(regions, pairs, radius);
  const n = Math.max(1, cells.roots.length);
  const density = combine(cells.roots, n);
  const odd = density.map((v, i) => v - density[NODES - 1 - i]);
  return {
    candidates: peaks(odd).map((i) => {
      const mode = centre(odd, i);
      return {
        ...mode,
        strength: odd[i],
        antisymmetry: odd[i] / density[i],
        surfaces: entropyNumber(cells.roots.map((r) => Math.max(0, r[i] - r[NODES - 1 - i]))),
        colours: coloursAcross(regions, pairs, radius, mode),
      };
    }),
    still: density[MIDDLE * GRID + MIDDLE],
    stillSurfaces: entropyNumber(cells.roots.map((r) => r[MIDDLE * GRID + MIDDLE])),
    pairs: cells.pairs,
  };
}

/** Size of a step across the direction of the light. */
const ACROSS = 0.1;

/** Effective number of steps across a direction that its votes come from. */
function coloursAcross(
  { x, y }: Regions,
  pairs: Pairs,
  radius: number,
  mode: { x: number; y: number },
): number {
  const length = Math.hypot(mode.x, mode.y);
  const votes = new Map<number, number>();
  for (let p = 0; p < pairs.count; p++) {
    const dl = pairs.dl[p];
    if (dl <= LEAST_DROP || dl >= MOST_DROP || pairs.distance[p] > radius) continue;
    const sx = pairs.dx[p] / dl;
    const sy = pairs.dy[p] / dl;
    const spread = 2 * Math.max(0.06 / dl, 0.05) ** 2;
    const near = Math.exp(-((sx - mode.x) ** 2 + (sy - mode.y) ** 2) / spread);
    const against = Math.exp(-((sx + mode.x) ** 2 + (sy + mode.y) ** 2) / spread);
    const i = pairs.bright[p];
    const j = pairs.dark[p];
    const off = ((y[i] + y[j]) * mode.x - (x[i] + x[j]) * mode.y) / (2 * length);
    const step = Math.round(off / ACROSS);
    const w = 1 / ((pairs.distance[p] + radius / 3) * spread);
    votes.set(step, (votes.get(step) ?? 0) + w * (near - against));
  }
  return entropyNumber([...votes.values()].map((v) => Math.sqrt(Math.max(0, v))));
}

interface Cells {
  /** Roots of the density of each cell. */
  readonly roots: Float64Array[];
  readonly pairs: number;
}

function gather({ x, y }: Regions, pairs: Pairs, radius: number): Cells {
  const index = new Map<number, number>();
  const roots: Float64Array[] = [];
  const ex = new Float64Array(GRID);
  let count = 0;
  for (let p = 0; p < pairs.count; p++) {
    const dl = pairs.dl[p];
    if (dl <= LEAST_DROP || dl >= MOST_DROP || pairs.distance[p] > radius) continue;
    const sx = pairs.dx[p] / dl;
    const sy = pairs.dy[p] / dl;
    if (Math.abs(sx) >= REACH || Math.abs(sy) >= REACH) continue;
    const i = pairs.bright[p];
    const j = pairs.dark[p];
    const key = Math.round((x[i] + x[j]) / 2 / CELL) * 1000 + Math.round((y[i] + y[j]) / 2 / CELL);
    let c = index.get(key);
    if (c === undefined) {
      c = roots.length;
      index.set(key, c);
      roots.push(new Float64Array(NODES));
    }
    const w = radius / (pairs.distance[p] + radius / 3);
    count++;
    const sigma = Math.max(0.06 / dl, 0.05);
    stamp(roots[c], sx, sy, sigma, (0.0025 * w) / (sigma * sigma), ex);
  }
  for (const r of roots) for (let i = 0; i < NODES; i++) r[i] = Math.sqrt(r[i]);
  return { roots, pairs: count };
}

/** (Σ roots)²/n. */
function combine(roots: readonly Float64Array[], n: number): Float64Array {
  const total = new Float64Array(NODES);
  for (const r of roots) for (let i = 0; i < NODES; i++) total[i] += r[i];
  for (let i = 0; i < NODES; i++) total[i] = (total[i] * total[i]) / n;
  return total;
}

const lengthAt = (i: number) => Math.hypot(Math.floor(i / GRID) - MIDDLE, (i % GRID) - MIDDLE) * STEP;

/** Maxima of the odd part away from zero, the strongest first, no two in one direction. */
function peaks(odd: Float64Array): number[] {
  const found: number[] = [];
  for (let a = 1; a < GRID - 1; a++) {
    for (let b = 1; b < GRID - 1; b++) {
      const i = a * GRID + b;
      if (odd[i] <= 0 || lengthAt(i) < STILL) continue;
      let top = true;
      for (let da = -1; da <= 1 && top; da++) {
        for (let db = -1; db <= 1; db++) if (odd[i + da * GRID + db] > odd[i]) top = false;
      }
      if (top) found.push(i);
    }
  }
  found.sort((i, j) => odd[j] - odd[i] || i - j);
  const chosen: number[] = [];
  const angle = (i: number) => Math.atan2((i % GRID) - MIDDLE, Math.floor(i / GRID) - MIDDLE);
  for (const i of found) {
    const near = chosen.some((j) => {
      const turn = Math.abs(angle(i) - angle(j));
      return Math.min(turn, 2 * Math.PI - turn) < (APART * Math.PI) / 180;
    });
    if (!near) chosen.push(i);
    if (chosen.length === CANDIDATES) break;
  }
  return chosen;
}

/** Mean place of the 3 × 3 nodes around a maximum. */
function centre(odd: Float64Array, i: number): { x: number; y: number } {
  let [sum, x, y] = [0, 0, 0];
  for (let da = -1; da <= 1; da++) {
    for (let db = -1; db <= 1; db++) {
      const w = Math.max(0, odd[i + da * GRID + db]);
      sum += w;
      x += w * (Math.floor(i / GRID) + da - MIDDLE);
      y += w * ((i % GRID) + db - MIDDLE);
    }
  }
  return { x: (x / sum) * STEP, y: (y / sum) * STEP };
}

function stamp(
  to: Float64Array,
  sx: number,
  sy: number,
  sigma: number,
  weight: number,
  ex: Float64Array,
): void {
  const reach = 3.5 * sigma;
  const from = (v: number) => Math.max(0, Math.ceil((v - reach + REACH) / STEP));
  const until = (v: number) => Math.min(GRID - 1, Math.floor((v + reach + REACH) / STEP));
  const x0 = from(sx);
  const x1 = until(sx);
  for (let i = x0; i <= x1; i++) ex[i] = weight * Math.exp(-0.5 * (((i - MIDDLE) * STEP - sx) / sigma) ** 2);
  const y1 = until(sy);
  for (let j = from(sy); j <= y1; j++) {
    const ey = Math.exp(-0.5 * (((j - MIDDLE) * STEP - sy) / sigma) ** 2);
    for (let i = x0; i <= x1; i++) to[i * GRID + j] += ex[i] * ey;
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

import { nelderMead } from '../../numbers/nelderMead.ts';
import { logColour, SQRT2, SQRT6 } from './logColour.ts';

/** Steps of the light from shade (0) to lit (1); geometric, for a coarse first step would exceed the tolerance. */
const STEPS = Float64Array.from({ length: 13 }, (_, i) => (5 ** (i / 12) - 1) / 4);
/** Weight of a miss in ℓ against one in chromaticity. */
const ALONG = 0.35;
/** Tolerance of the fit in log-chromaticity. */
const TOLERANCE = 0.06;

/** Key over fill per channel, K/A. */
export type Ratio = readonly [number, number, number];

/**
 * All changes a light of ratio q = K/A can make between two places of one surface: ln(k₂K+A) − ln(k₁K+A) for
 * k₁ < k₂, whatever the surface. Interleaved dx, dy, dℓ.
 */
export function changes(q: Ratio, steps: Float64Array = STEPS): Float64Array {
  const n = steps.length;
  const point = Array.from(steps, (k) => logColour(1 + k * q[0], 1 + k * q[1], 1 + k * q[2]));
  const out = new Float64Array(((n * (n - 1)) / 2) * 3);
  let o = 0;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      out[o++] = point[j].x - point[i].x;
      out[o++] = point[j].y - point[i].y;
      out[o++] = point[j].l - point[i].l;
    }
  }
  return out;
}

/** Places between shade and light that a change from shade to lit starts and ends at, and its least length. */
const SHADE_STEPS: readonly number[] = [0, 0.08, 0.2, 0.35];
const LIT_STEPS: readonly number[] = [0.35, 0.5, 0.7, 1];
const LEAST_STEP = 0.25;

/** Changes from shade to lit that a light of ratio q = K/A can make, all at least a step apart; laid out as `changes`. */
export function wholeChanges(q: Ratio): Float64Array {
  const at = (k: number) => logColour(1 + k * q[0], 1 + k * q[1], 1 + k * q[2]);
  const out: number[] = [];
  for (const k1 of SHADE_STEPS) {
    for (const k2 of LIT_STEPS) {
      if (k2 - k1 < LEAST_STEP) continue;
      const a = at(k1);
      const b = at(k2);
      out.push(b.x - a.x, b.y - a.y, b.l - a.l);
    }
  }
  return Float64Array.from(out);
}

/** Distance of a change (dark to light) from the nearest change of the light; see `changes`. */
export function missOf(dx: number, dy: number, dl: number, table: Float64Array): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < table.length; i += 3) {
    const a = dx - table[i];
    const b = dy - table[i + 1];
    const c = ALONG * (dl - table[i + 2]);
    const d = a * a + b * b + c * c;
    if (d < least) least = d;
  }
  return Math.sqrt(least);
}

/** The light that swaps its parts: q' = s²/q with s the geometric mean, the same contrast, the opposite colour. */
export function opposite(q: Ratio): Ratio {
  const s2 = (q[0] * q[1] * q[2]) ** (2 / 3);
  return [s2 / q[0], s2 / q[1], s2 / q[2]];
}

/** The change from full shade to full light, ln(1 + q). */
export function fullChange(q: Ratio): { x: number; y: number; l: number } {
  return logColour(1 + q[0], 1 + q[1], 1 + q[2]);
}

/** Changes that take part in a fit; arrays of one length. */
export interface Changes {
  readonly dx: ArrayLike<number>;
  readonly dy: ArrayLike<number>;
  readonly dl: ArrayLike<number>;
  readonly weight: ArrayLike<number>;
}

export interface CurveFit {
  readonly q: Ratio;
  /** Mean kernel of the changes that were fitted, 0…1. */
  readonly fit: number;
  /** How many were. */
  readonly pairs: number;
}

/** Usual mean of ln K/A: key over fill about 4. The strength is weakly determined, this holds it. Our default. */
const USUAL = 1.4;
/** Share that changes from shade all the way to lit have in the fit: they tell the strength, all together the colour. */
const TELLS_STRENGTH = 0.25;
/** Fewest changes a fit needs, and most it uses (an even choice of them). */
const FEWEST = 12;
const MOST = 500;

/**
 * Fits q = K/A to the changes that point along the mode of the votes (within about 20°): the largest mean of
 * exp(−½(miss/0.06)²), searched from the mode's direction at three strengths. Null with too few changes.
 */
export function fitCurve(all: Changes, mode: { x: number; y: number }): CurveFit | null {
  const length = Math.hypot(mode.x, mode.y);
  if (length === 0) return null;
  const ux = mode.x / length;
  const uy = mode.y / length;
  const chosen: number[] = [];
  for (let i = 0; i < all.dx.length; i++) {
    const along = all.dx[i] * ux + all.dy[i] * uy;
    const off = Math.abs(all.dy[i] * ux - all.dx[i] * uy);
    if (along > 0.06 && off < 0.35 * along && all.dl[i] > 0.25 && all.dl[i] < 3) chosen.push(i);
  }
  if (chosen.length < FEWEST) return null;
  const stride = Math.max(1, chosen.length / MOST);
  const picked: number[] = [];
  for (let t = 0; t < chosen.length; t += stride) picked.push(chosen[Math.floor(t)]);

  let sum = 0;
  for (const i of picked) sum += all.weight[i];
  const cost = (p: ArrayLike<number>) => {
    const tried: Ratio = [Math.exp(p[0]), Math.exp(p[1]), Math.exp(p[2])];
    // Any two places of the light's way tell its colour; from shade to lit is what tells its strength.
    const any = changes(tried);
    const whole = wholeChanges(tried);
    let good = 0;
    for (const i of picked) {
      const r = missOf(all.dx[i], all.dy[i], all.dl[i], any) / TOLERANCE;
      const s = missOf(all.dx[i], all.dy[i], all.dl[i], whole) / TOLERANCE;
      good +=
        all.weight[i] *
        ((1 - TELLS_STRENGTH) * Math.exp(-0.5 * r * r) + TELLS_STRENGTH * Math.exp(-0.5 * s * s));
    }
    return -good / sum + 0.03 * ((p[0] + p[1] + p[2]) / 3 - USUAL) ** 2;
  };
  const direction = [
    mode.x / SQRT2 + mode.y / SQRT6,
    -mode.x / SQRT2 + mode.y / SQRT6,
    (-2 * mode.y) / SQRT6,
  ];
  let best: ReturnType<typeof nelderMead> | null = null;
  for (const strength of [0.7, 1.4, 2.2]) {
    const start = direction.map((v) => v * strength + 1);
    const found = nelderMead(cost, start, {
      step: 0.15,
      maxEvaluations: 120,
      pointTolerance: 0.02,
      valueTolerance: 1e-4,
    });
    if (best === null || found.value < best.value) best = found;
  }
  const q: Ratio = [Math.exp(best!.x[0]), Math.exp(best!.x[1]), Math.exp(best!.x[2])];
  return { q, fit: -best!.value, pairs: chosen.length };
}

/** Changes deeper than this in ℓ show the direction of the shift best; wider tolerance than the fit's. Our defaults. */
const DEEP = 0.9;
const WIDE = 0.1;

/**
 * Lit minus shade: the length is the curve's, from no key to full key; the direction that of the deep changes on
 * it, which is less bent than the curve's own where the strength is uncertain.
 */
export function shiftOf(q: Ratio, all: Changes): { x: number; y: number } {
  const table = changes(q);
  const full = fullChange(q);
  const length = Math.hypot(full.x, full.y);
  const least = Math.min(DEEP, 0.6 * full.l);
  let x = 0;
  let y = 0;
  for (let i = 0; i < all.dx.length; i++) {
    if (all.dl[i] < least || all.dl[i] > 1.3 * full.l) continue;
    const e = Math.hypot(all.dx[i], all.dy[i]);
    if (e < 0.08 || all.dx[i] * full.x + all.dy[i] * full.y < 0.85 * e * length) continue;
    const r = missOf(all.dx[i], all.dy[i], all.dl[i], table) / WIDE;
    const w = all.weight[i] * Math.exp(-0.5 * r * r);
    x += w * all.dx[i];
    y += w * all.dy[i];
  }
  const found = Math.hypot(x, y);
  return found > 0 ? { x: (x * length) / found, y: (y * length) / found } : { x: full.x, y: full.y };
}

/**
 * How much a light explains: sum of the kernels of all changes that have a colour, point its way (within about 35°)
 * and are as deep as a shade.
 */
export function explained(q: Ratio, all: Changes): number {
  const table = changes(q);
  const full = fullChange(q);
  const length = Math.hypot(full.x, full.y);
  let sum = 0;
  for (let i = 0; i < all.dx.length; i++) {
    if (all.dl[i] < 0.25 || all.dl[i] > 3) continue;
    const e = Math.hypot(all.dx[i], all.dy[i]);
    if (e < TOLERANCE || all.dx[i] * full.x + all.dy[i] * full.y < 0.8 * e * length) continue;
    const r = missOf(all.dx[i], all.dy[i], all.dl[i], table) / TOLERANCE;
    sum += all.weight[i] * Math.exp(-0.5 * r * r);
  }
  return sum;
}

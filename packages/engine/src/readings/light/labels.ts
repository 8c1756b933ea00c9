import { changes, missOf, opposite, type Ratio } from './curve.ts';
import type { Pairs } from './pairs.ts';
import type { Regions } from './regions.ts';

const BACKGROUND = 0.06;
const TAU = 0.06;
const TEXTURE = 0.25;
const SAY = 30;
const SMOOTHING = 1.2;
const PRIOR = [0.31, 0.31, 0.28, 0.1];
const ROUNDS = 25;

export interface Labelling {
  /** count × 4: lit, shade, neutral, opposite. */
  readonly probability: Float64Array;
  /** pairs × 3: shade, neutral, opposite, 0…1. */
  readonly says: Float32Array;
  readonly weight: Float32Array;
}

const ramp = (v: number, from: number, width: number) => Math.min(1, Math.max(0, (v - from) / width));

/** Labels of all valid regions by mean field over pairwise potentials. */
export function labelRegions(regions: Regions, valid: Uint8Array, pairs: Pairs, q: Ratio): Labelling {
  const n = regions.count;
  const table = changes(q);
  const swapped = changes(opposite(q));
  const m = pairs.count;
  const says = new Float32Array(3 * m);
  const same = new Float32Array(m);
  const like = new Float32Array(m);
  const weight = new Float32Array(m);
  const total = new Float64Array(n);
  for (let p = 0; p < m; p++) {
    const dx = pairs.dx[p];
    const dy = pairs.dy[p];
    const dl = pairs.dl[p];
    const e0 = Math.hypot(dx, dy);
    const e1 = missOf(dx, dy, dl, table);
    const e2 = missOf(dx, dy, dl, swapped);
    const g = (e: number, tau: number) => Math.exp(-0.5 * (e / tau) ** 2);
    says[3 * p] = g(e1, TAU) * ramp(dl, 0.25, 0.25) * ramp(e0, 0.05, 0.06);
    says[3 * p + 1] = g(e0, TAU * 0.8) * ramp(dl, 0.35, 0.25);
    says[3 * p + 2] = g(e2, TAU) * ramp(dl, 0.25, 0.25) * ramp(e0, 0.08, 0.06);
    same[p] = g(e0, TAU) * Math.exp(-dl / TEXTURE);
    like[p] = pairs.distance[p] < 30 ? Math.exp(-0.5 * (e0 / 0.06) ** 2 - 0.5 * (dl / 0.2) ** 2) : 0;
    const w = 1 / (1 + (pairs.distance[p] / 18) ** 2);
    weight[p] = w;
    total[pairs.bright[p]] += w;
    total[pairs.dark[p]] += w;
  }
  const say = (v: number) => Math.log(1 + v / BACKGROUND);
  const F = new Float64Array(4 * m);
  for (let p = 0; p < m; p++) {
    const norm = Math.sqrt(Math.max(total[pairs.bright[p]], 1e-6) * Math.max(total[pairs.dark[p]], 1e-6));
    weight[p] = (weight[p] * SAY) / norm;
    const w = weight[p];
    for (let k = 0; k < 3; k++) F[4 * p + k] = w * say(says[3 * p + k]);
    F[4 * p + 3] = w * say(same[p]) + like[p] * SMOOTHING * 3 * w;
  }
  // The smoothing term acts on every label alike, the texture term too.
  let q0 = new Float64Array(4 * n);
  for (let i = 0; i < n; i++) for (let k = 0; k < 4; k++) q0[4 * i + k] = PRIOR[k];
  let next = new Float64Array(4 * n);
  const logPrior = PRIOR.map(Math.log);
  for (let round = 0; round < ROUNDS; round++) {
    for (let i = 0; i < n; i++) for (let k = 0; k < 4; k++) next[4 * i + k] = logPrior[k];
    for (let p = 0; p < m; p++) {
      const i = 4 * pairs.bright[p];
      const j = 4 * pairs.dark[p];
      const f = 4 * p;
      const s = F[f + 3];
      next[i] += s * q0[j] + F[f] * q0[j + 1] + F[f + 1] * q0[j + 2] + F[f + 2] * q0[j + 3];
      next[j] += s * q0[i];
      for (let k = 1; k < 4; k++) {
        next[i + k] += s * q0[j + k];
        next[j + k] += s * q0[i + k] + F[f + k - 1] * q0[i];
      }
    }
    for (let i = 0; i < 4 * n; i += 4) {
      const top = Math.max(next[i], next[i + 1], next[i + 2], next[i + 3]);
      let sum = 0;
      for (let k = 0; k < 4; k++) sum += next[i + k] = Math.exp(next[i + k] - top);
      for (let k = 0; k < 4; k++) next[i + k] = 0.5 * q0[i + k] + (0.5 * next[i + k]) / sum;
    }
    [q0, next] = [next, q0];
  }
  for (let i = 0; i < n; i++) if (!valid[i]) q0.fill(0, 4 * i, 4 * i + 4);
  return { probability: q0, says, weight };
}

import { STEPS } from './histogram.ts';

/** Concentration of the von Mises kernel whose full width at half maximum is 20°: ln 2 / (1 − cos 10°) = 45.6. */
export const KAPPA = Math.LN2 / (1 - Math.cos((10 * Math.PI) / 180));

// The kernel in steps of 1°; beyond 60° it is below 10⁻⁹ and left out.
const REACH = 60;
const KERNEL = ((): Float64Array => {
  const k = Float64Array.from({ length: 2 * REACH + 1 }, (_, i) =>
    Math.exp(KAPPA * (Math.cos(((i - REACH) * Math.PI) / 180) - 1)),
  );
  const sum = k.reduce((s, v) => s + v, 0);
  return k.map((v) => v / sum);
})();
const ONE_HUE = spreadOf(KERNEL);

/** Circular density over hue: the histogram smoothed by the kernel; sums to what the histogram sums to. */
export function hueDensity(weight: Float64Array): Float64Array {
  // Laid out beyond both ends and folded back: no remainder in the inner loop.
  const wide = new Float64Array(STEPS + 2 * REACH);
  for (let h = 0; h < STEPS; h++) {
    const w = weight[h];
    if (w === 0) continue;
    for (let k = 0; k < KERNEL.length; k++) wide[h + k] += w * KERNEL[k];
  }
  const out = wide.slice(REACH, REACH + STEPS);
  for (let k = 0; k < REACH; k++) {
    out[STEPS - REACH + k] += wide[k];
    out[k] += wide[STEPS + REACH + k];
  }
  return out;
}

/**
 * Effective number of hues: exp of the density's entropy, divided by that of one pure hue (Hill number of order 1,
 * Hill 1973, Ecology 54/2). One hue = 1, two equal opposite hues = 2, the full circle = 10.2.
 */
export function effectiveHues(density: Float64Array): number {
  return Math.max(1, spreadOf(density) / ONE_HUE);
}

function spreadOf(p: Float64Array): number {
  let entropy = 0;
  for (const v of p) if (v > 0) entropy -= v * Math.log(v);
  return Math.exp(entropy);
}

/** Degrees of the shortest arc that holds `part` of the weight (a histogram that sums to 1). */
export function spanDegrees(weight: Float64Array, part = 0.9): number {
  let best = STEPS;
  let sum = 0;
  let end = 0;
  for (let start = 0; start < STEPS; start++) {
    while (sum < part && end < start + STEPS) sum += weight[end++ % STEPS];
    if (sum < part) break;
    // The last step is needed only in part.
    const over = (sum - part) / weight[(end - 1) % STEPS];
    best = Math.min(best, end - start - over);
    sum -= weight[start];
  }
  return best;
}

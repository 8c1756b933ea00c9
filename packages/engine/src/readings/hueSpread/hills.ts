import { STEPS } from './histogram.ts';

/** A hill of the hue density with the arc around it: steps [from, to), running over the end of the circle. */
export interface Hill {
  /** Step of the summit. */
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

/** What decides whether a hill stands by itself. */
export interface Standing extends Hill {
  /** Height of the summit as a share of the highest one. */
  readonly height: number;
  /** Height of the higher of the two valleys beside it, in the same measure. */
  readonly valley: number;
}

/**
 * The hills of a circular density, in the order of the circle. The least prominent hill that does not stand by
 * itself flows into its neighbour behind the shallower valley, until all that are left stand.
 */
export function hillsOf(density: Float64Array, stands: (hill: Standing) => boolean): Hill[] {
  const summits = summitsOf(density);
  const hills = summits.map((at, i) => ({
    at,
    to: valleyBetween(density, at, summits[(i + 1) % summits.length]),
  }));
  const highest = summits.reduce((most, at) => Math.max(most, density[at]), 0);
  const before = (i: number): number => (i + hills.length - 1) % hills.length;
  while (hills.length > 1) {
    let weakest = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < hills.length; i++) {
      const { at, to } = hills[i];
      const from = hills[before(i)].to;
      const height = density[at] / highest;
      const valley = Math.max(density[from], density[to]) / highest;
      if (height - valley >= least || stands({ at, from, to, height, valley })) continue;
      least = height - valley;
      weakest = i;
    }
    if (weakest < 0) break;
    const left = hills[before(weakest)];
    const hill = hills[weakest];
    const overLeft = density[left.to] > density[hill.to];
    const into = overLeft ? left : hills[(weakest + 1) % hills.length];
    if (density[hill.at] > density[into.at]) into.at = hill.at;
    // The shallower valley is gone, the deeper one is left between the neighbours.
    if (overLeft) left.to = hill.to;
    hills.splice(weakest, 1);
  }
  return hills.map(({ at, to }, i) => ({ at, from: hills[before(i)].to, to }));
}

/** Steps higher than both neighbours; of a flat top its middle. */
function summitsOf(density: Float64Array): number[] {
  const out: number[] = [];
  for (let h = 0; h < STEPS; h++) {
    if (!(density[h] > density[(h + STEPS - 1) % STEPS])) continue;
    let end = h;
    while (density[(end + 1) % STEPS] === density[h]) end++;
    if (density[(end + 1) % STEPS] < density[h]) out.push(((h + end) >> 1) % STEPS);
  }
  return out.sort((a, b) => a - b);
}

/** Lowest step on the way up the circle from one summit to the next; of a flat bottom its middle. */
function valleyBetween(density: Float64Array, from: number, to: number): number {
  const length = (to - from + STEPS) % STEPS || STEPS;
  let low = density[from];
  let first = 0;
  let last = 0;
  for (let k = 1; k < length; k++) {
    const d = density[(from + k) % STEPS];
    if (d < low) {
      low = d;
      first = k;
      last = k;
    } else if (d === low) last = k;
  }
  return (from + ((first + last) >> 1)) % STEPS;
}

import { nelderMead } from '../numbers/nelderMead.ts';

/** One number of the search: −1…1, or 0…1 when it goes one way only. */
export interface Way {
  readonly both: boolean;
}

/** A point and what it costs; a number of 0 is left out. */
export interface Found {
  readonly x: Float64Array;
  readonly cost: number;
}

export type Cost = (x: Float64Array) => number;

/** First looks along a number, as shares of its range. */
const LOOKS = [0.12, 0.3, 0.6];
/** A further number must bring this share of what is left. */
const WORTH = 0.01;
/** Most numbers that are moved together. */
const MOST = 7;
/** Searches begun anew from a seeded place near the best one. */
const RESTARTS = 2;

/**
 * Makes a cost of a few numbers small with as few of them as it takes.
 *
 * One number after the other is taken in, the one that brings most first, and all that are in are then moved together
 * by Nelder & Mead's simplex. The same is done once more without the number that was taken first, for the best first
 * step is not always on the best way; at last the search is begun anew from seeded places near the better end.
 * Deterministic. Yields the share that is done, 0…1.
 */
export function* search(cost: Cost, ways: readonly Way[], nothing: Found): Generator<number, Found> {
  const one = bestNumber(cost, ways, nothing, null);
  const first = numbersIn(one)[0] ?? null;
  if (first === null) return nothing;
  let best = yield* grow(cost, ways, nothing, one, 0);
  const other = bestNumber(cost, ways, nothing, first);
  const second = yield* grow(cost, ways, nothing, other, 0.4);
  if (second.cost < best.cost) best = second;
  let seed = 1;
  for (let r = 0; r < RESTARTS && numbersIn(best).length > 1; r++) {
    const x = Float64Array.from(best.x);
    for (const k of numbersIn(best)) {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      x[k] += 0.25 * (seed / 2 ** 32 - 0.5);
    }
    const begun = held(x, ways);
    const found = settle(cost, ways, { x: begun, cost: cost(begun) }, 16, 0.08);
    if (found.cost < best.cost) best = found;
    yield 0.8 + (0.15 * (r + 1)) / RESTARTS;
  }
  return settle(cost, ways, best, 24, 0.03);
}

/** Takes in one number after the other, beginning with the one that `next` has more than `from`. */
function* grow(
  cost: Cost,
  ways: readonly Way[],
  from: Found,
  next: Found,
  done: number,
): Generator<number, Found> {
  let best = from;
  let found = next;
  for (let taken = 0; taken < MOST && best.cost - found.cost > WORTH * best.cost; taken++) {
    best = settle(cost, ways, found, 14, 0.12);
    yield done + (0.4 * (taken + 1)) / MOST;
    found = bestNumber(cost, ways, best, null);
  }
  return best;
}

/**
 * The best point that one further number leads to; the point itself when none helps.
 *
 * @param but a number that is left out
 */
function bestNumber(cost: Cost, ways: readonly Way[], from: Found, but: number | null): Found {
  let best = from;
  for (let k = 0; k < ways.length; k++) {
    if (from.x[k] !== 0 || k === but) continue;
    for (const look of ways[k].both ? [...LOOKS, ...LOOKS.map((v) => -v)] : LOOKS) {
      const x = Float64Array.from(from.x);
      x[k] = look;
      const value = cost(x);
      if (value < best.cost) best = { x, cost: value };
    }
  }
  return best;
}

/**
 * Moves all numbers that are in, together.
 *
 * @param evaluations most per number
 * @param step first step along each
 */
export function settle(
  cost: Cost,
  ways: readonly Way[],
  from: Found,
  evaluations: number,
  step: number,
): Found {
  const active = numbersIn(from);
  if (active.length === 0) return from;
  const whole = (part: ArrayLike<number>): Float64Array => {
    const x = Float64Array.from(from.x);
    active.forEach((k, j) => {
      x[k] = part[j];
    });
    return held(x, ways);
  };
  const start = active.map((k) => from.x[k]);
  const found = nelderMead((part) => cost(whole(part)), start, {
    step: start.map((v) => (v > 0.5 ? -step : step)),
    maxEvaluations: evaluations * active.length,
    pointTolerance: 0.004,
    valueTolerance: 1e-6,
  });
  return found.value < from.cost ? { x: whole(found.x), cost: found.value } : from;
}

/** Leaves out numbers without which nothing is dearer, moving the others once more. */
export function prune(cost: Cost, ways: readonly Way[], found: Found): Found {
  let best = found;
  for (;;) {
    let least: Found | null = null;
    for (const k of numbersIn(best)) {
      const x = Float64Array.from(best.x);
      x[k] = 0;
      const value = cost(x);
      if (!least || value < least.cost) least = { x, cost: value };
    }
    if (!least) return best;
    const moved = settle(cost, ways, least, 12, 0.05);
    if (moved.cost > best.cost) return best;
    best = moved;
  }
}

function numbersIn({ x }: Found): number[] {
  return [...x.keys()].filter((k) => x[k] !== 0);
}

function held(x: Float64Array, ways: readonly Way[]): Float64Array {
  return x.map((v, k) => Math.min(1, Math.max(ways[k].both ? -1 : 0, v)));
}

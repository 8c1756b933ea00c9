/** Seeded chance, so that any input can be made again from its seed and number. */
export interface Chance {
  /** 0 ≤ x < 1. */
  real(): number;
  /** A whole number below `count`. */
  below(count: number): number;
  one<T>(of: readonly T[]): T;
  /** True with this probability. */
  maybe(probability: number): boolean;
}

/** Chance of one numbered input: the finalizer of MurmurHash3 (32 bits) over a counter. */
export function chanceOf(seed: number, number: number): Chance {
  let state = mix(mix(seed) ^ number);
  const real = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    return mix(state) / 2 ** 32;
  };
  const below = (count: number): number => Math.floor(real() * count);
  return { real, below, one: (of) => of[below(of.length)], maybe: (probability) => real() < probability };
}

function mix(x: number): number {
  let h = x >>> 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

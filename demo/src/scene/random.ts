/** Seeded numbers and noise: the same on every machine (integer arithmetic and plain IEEE operations only). */

/** Mixes integers to 32 well-spread bits (finaliser of MurmurHash3, public domain). */
export function hash(a: number, b = 0, c = 0, seed = 0): number {
  let h = (Math.imul(a | 0, 0x85ebca6b) ^ Math.imul(b | 0, 0xc2b2ae35) ^ Math.imul(c | 0, 0x27d4eb2f)) + seed;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** The hash as a number in [0, 1). */
export function hash01(a: number, b = 0, c = 0, seed = 0): number {
  return hash(a, b, c, seed) / 4294967296;
}

/** A stream of random numbers. */
export interface Random {
  /** Next number in [0, 1). */
  next(): number;
  /** Uniform in [from, to). */
  between(from: number, to: number): number;
  /** Whole number in [from, to). */
  whole(from: number, to: number): number;
  /** One of the list. */
  pick<T>(list: readonly T[]): T;
  /** Normal deviate, mean 0, deviation 1 (Box & Muller 1958). */
  normal(): number;
  /** The list in a new order. */
  shuffle<T>(list: readonly T[]): T[];
}

/** A counter-based stream: number n of seed s is hash(n, s), so streams of different seeds are independent. */
export function random(seed: number): Random {
  let count = 0;
  const next = () => hash01(count++, 0x9e3779b9, 0, Math.imul(seed, 0x632be5ab));
  const whole = (from: number, to: number) => from + Math.floor(next() * (to - from));
  return {
    next,
    between: (from, to) => from + (to - from) * next(),
    whole,
    pick: (list) => list[whole(0, list.length)]!,
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    shuffle: (list) => {
      const out = [...list];
      for (let i = out.length - 1; i > 0; i--) {
        const j = whole(0, i + 1);
        [out[i], out[j]] = [out[j]!, out[i]!];
      }
      return out;
    },
  };
}

const ease = (t: number) => t * t * t * (t * (t * 6 - 15) + 10);

/** Value noise in space, 0…1, with a period of one unit between independent values. */
export function noise3(x: number, y: number, z: number, seed: number): number {
  const iz = Math.floor(z);
  const w = ease(z - iz);
  const near = layer(x, y, iz, seed);
  return w === 0 ? near : near + (layer(x, y, iz + 1, seed) - near) * w;
}

/** Value noise on a plane, 0…1. */
export function noise2(x: number, y: number, seed: number): number {
  return layer(x, y, 0, seed);
}

function layer(x: number, y: number, k: number, seed: number): number {
  const ix = Math.floor(x);
  const iy = Math.floor(y);
  const u = ease(x - ix);
  const v = ease(y - iy);
  const a = hash01(ix, iy, k, seed);
  const b = hash01(ix + 1, iy, k, seed);
  const c = hash01(ix, iy + 1, k, seed);
  const d = hash01(ix + 1, iy + 1, k, seed);
  const top = a + (b - a) * u;
  return top + (c + (d - c) * u - top) * v;
}

/** Sum of octaves of noise, each half as strong and twice as fine; 0…1. */
export function cloud3(x: number, y: number, z: number, seed: number, octaves = 4): number {
  let sum = 0;
  let weight = 0;
  let a = 1;
  let f = 1;
  for (let o = 0; o < octaves; o++) {
    sum += a * noise3(x * f, y * f, z * f, seed + o * 101);
    weight += a;
    a *= 0.5;
    f *= 2.03;
  }
  return sum / weight;
}

/** Sum of octaves on a plane; 0…1. */
export function cloud2(x: number, y: number, seed: number, octaves = 4): number {
  let sum = 0;
  let weight = 0;
  let a = 1;
  let f = 1;
  for (let o = 0; o < octaves; o++) {
    sum += a * noise2(x * f, y * f, seed + o * 101);
    weight += a;
    a *= 0.5;
    f *= 2.03;
  }
  return sum / weight;
}

/** What is known of every pixel of a test picture, and how it is packed into a byte. */

/** Low three bits: what the pixel is. */
export const EDGE = 0; // sub-pixels disagree: counted nowhere
export const LIT = 1; // k ≥ 0.35
export const HALF = 2; // in between
export const SHADE = 3; // k ≤ 0.2, with at least SHADE_DROP between lit and shade
export const SKY = 4;
export const GLOW = 5;
export const MIRROR = 6; // more than a third of the light is mirrored
export const UNLIT = 7; // the key hardly reaches this place even unobstructed: neither lit nor shade
export const KIND = 7;
/** Bits above. */
export const OBJECT = 8; // not ground, wall, water …
export const HAZED = 16; // the air takes more than 15 %
export const NEUTRAL = 32; // planted: shade is the lit colour plus black
export const OPPOSITE = 64; // planted: lit and shade in the swapped light

/** Thresholds of the labels (ours): share of the key that arrives, cosine included. */
export const LIT_FROM = 0.35;
export const SHADE_TO = 0.2;
/** Least difference between full light and no key, in mean logarithm: ln((K + A)/A). */
export const SHADE_DROP = 0.3;

/** Distance code for shade whose reflectance is nowhere seen lit. */
export const UNDECIDABLE = 255;

/** Cells of like reflectance: log-chromaticity and log-lightness of the pigment. */
const CELL_C = 0.1;
const CELL_L = 0.35;
const COARSE = 3;
/** Least lit area of a reflectance that makes it decidable, in pixels at a long side of 900. */
const LEAST_LIT = 150;

export interface TruthInput {
  readonly width: number;
  readonly height: number;
  readonly labels: Uint8Array;
  /** Mean reflectance of each pixel, interleaved. */
  readonly reflectance: Float32Array;
}

/**
 * For shade pixels the distance in pixels (0…254) to the nearest place where the same reflectance is lit,
 * 255 where it is seen lit nowhere. The same reflectance: within a cell's width in log-chromaticity (0.1) and
 * log-lightness (0.35), on whatever thing. Things lit by the swapped light count only among themselves.
 */
export function distanceToLit({ width, height, labels, reflectance }: TruthInput): Uint8Array {
  const n = width * height;
  const cell = new Int32Array(n).fill(-1);
  const names = new Map<string, number>();
  const keys: [number, number, number, number][] = [];
  const lit: number[] = [];
  const shade: number[] = [];
  for (let i = 0; i < n; i++) {
    const kind = labels[i]! & KIND;
    if (kind !== LIT && kind !== SHADE) continue;
    const r = Math.log(reflectance[i * 3]!);
    const g = Math.log(reflectance[i * 3 + 1]!);
    const b = Math.log(reflectance[i * 3 + 2]!);
    const key: [number, number, number, number] = [
      Math.round((r - g) / Math.SQRT2 / CELL_C),
      Math.round((r + g - 2 * b) / Math.sqrt(6) / CELL_C),
      Math.round((r + g + b) / 3 / CELL_L),
      labels[i]! & OPPOSITE,
    ];
    const name = key.join();
    let id = names.get(name);
    if (id === undefined) {
      id = keys.length;
      names.set(name, id);
      keys.push(key);
      lit.push(0);
      shade.push(0);
    }
    cell[i] = id;
    if (kind === LIT) lit[id]!++;
    else shade[id]!++;
  }
  const out = new Uint8Array(n).fill(UNDECIDABLE);
  const scale = Math.max(width, height) / 900;
  // A third of the size is exact enough for distances.
  const w = Math.ceil(width / COARSE);
  const h = Math.ceil(height / COARSE);
  const small = (i: number) =>
    Math.floor(Math.floor(i / width) / COARSE) * w + Math.floor((i % width) / COARSE);
  for (let id = 0; id < keys.length; id++) {
    if (shade[id]! < 40 * scale * scale) continue;
    const near = new Uint8Array(keys.length);
    let area = 0;
    const [x, y, l, o] = keys[id]!;
    for (let dx = -1; dx <= 1; dx++)
      for (let dy = -1; dy <= 1; dy++)
        for (let dl = -1; dl <= 1; dl++) {
          const other = names.get([x + dx, y + dy, l + dl, o].join());
          if (other === undefined) continue;
          near[other] = 1;
          area += lit[other]!;
        }
    if (area < LEAST_LIT * scale * scale) continue;
    const seeds = new Uint8Array(w * h);
    for (let i = 0; i < n; i++)
      if (cell[i]! >= 0 && near[cell[i]!] && (labels[i]! & KIND) === LIT) {
        seeds[small(i)] = 1;
      }
    const d = distanceTransform(seeds, w, h);
    for (let i = 0; i < n; i++)
      if (cell[i] === id && (labels[i]! & KIND) === SHADE) {
        out[i] = Math.min(254, Math.round(COARSE * d[small(i)]!));
      }
  }
  return out;
}

/** Exact Euclidean distance to the nearest seed (Felzenszwalb & Huttenlocher 2012). */
export function distanceTransform(seeds: Uint8Array, width: number, height: number): Float32Array {
  const big = 1e12;
  const f = new Float64Array(width * height);
  for (let i = 0; i < f.length; i++) f[i] = seeds[i] ? 0 : big;
  const longest = Math.max(width, height);
  const v = new Int32Array(longest);
  const z = new Float64Array(longest + 1);
  const line = new Float64Array(longest);
  const pass = (start: number, step: number, count: number) => {
    for (let q = 0; q < count; q++) line[q] = f[start + q * step]!;
    let k = 0;
    v[0] = 0;
    z[0] = -Infinity;
    z[1] = Infinity;
    for (let q = 1; q < count; q++) {
      let s: number;
      do {
        const p = v[k]!;
        s = (line[q]! + q * q - (line[p]! + p * p)) / (2 * (q - p));
      } while (s <= z[k]! && --k >= 0);
      k++;
      v[k] = q;
      z[k] = s;
      z[k + 1] = Infinity;
    }
    k = 0;
    for (let q = 0; q < count; q++) {
      while (z[k + 1]! < q) k++;
      f[start + q * step] = (q - v[k]!) ** 2 + line[v[k]!]!;
    }
  };
  for (let x = 0; x < width; x++) pass(x, width, height);
  for (let y = 0; y < height; y++) pass(y * width, 1, width);
  return Float32Array.from(f, Math.sqrt);
}

/**
 * The scene shift that is rendered: for every reflectance that is seen lit and in shade (at least 300 px each
 * at 900 px), the mean log-chromaticity of the arriving light, lit minus shade; then the mean over these
 * surfaces, each counted once. Air is left out: it is no property of the light.
 */
export function sceneShift(
  input: TruthInput & {
    /** Light that arrives (key and fill), interleaved. */ readonly light: Float32Array;
    /** Material of each pixel. */ readonly surface: Int32Array;
  },
): { x: number; y: number; surfaces: number } | null {
  const { width, height, labels, light, surface } = input;
  const least = 300 * (Math.max(width, height) / 900) ** 2;
  const sums = new Map<number, Float64Array>();
  for (let i = 0; i < width * height; i++) {
    const kind = labels[i]! & KIND;
    if (kind !== LIT && kind !== SHADE) continue;
    let s = sums.get(surface[i]!);
    if (!s) {
      s = new Float64Array(6);
      sums.set(surface[i]!, s);
    }
    const r = Math.log(light[i * 3]!);
    const g = Math.log(light[i * 3 + 1]!);
    const b = Math.log(light[i * 3 + 2]!);
    const o = kind === LIT ? 0 : 3;
    s[o]!++;
    s[o + 1]! += (r - g) / Math.SQRT2;
    s[o + 2]! += (r + g - 2 * b) / Math.sqrt(6);
  }
  let x = 0;
  let y = 0;
  let surfaces = 0;
  for (const s of sums.values()) {
    if (s[0]! < least || s[3]! < least) continue;
    x += s[1]! / s[0]! - s[4]! / s[3]!;
    y += s[2]! / s[0]! - s[5]! / s[3]!;
    surfaces++;
  }
  return surfaces > 0 ? { x: x / surfaces, y: y / surfaces, surfaces } : null;
}

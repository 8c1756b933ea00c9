import type { ColourSpace, Curve } from './space.ts';

/** sRGB code value 0…1 to linear light, mirrored for negative values (IEC 61966-2-1; extended as in CSS Color 4). */
export function srgbToLinear(v: number): number {
  const a = Math.abs(v);
  const l = a <= 0.04045 ? a / 12.92 : ((a + 0.055) / 1.055) ** 2.4;
  return v < 0 ? -l : l;
}

/** Linear light to sRGB code value 0…1, mirrored for negative values. */
export function linearToSrgb(l: number): number {
  const a = Math.abs(l);
  const v = a <= 0.0031308 ? a * 12.92 : 1.055 * a ** (1 / 2.4) - 0.055;
  return l < 0 ? -v : v;
}

/** Code value 0…1 of a channel to linear light. Values outside 0…1 are mirrored, or held for tables. */
export function decode(curve: Curve, v: number): number {
  if (curve.kind === 'srgb') return srgbToLinear(v);
  if (curve.kind === 'power') return Math.sign(v) * Math.abs(v) ** curve.exponent;
  const t = curve.values;
  const at = Math.min(1, Math.max(0, v)) * (t.length - 1);
  const i = Math.min(t.length - 2, Math.floor(at));
  return t[i] + (t[i + 1] - t[i]) * (at - i);
}

/** Linear light of a channel to code value 0…1: the inverse of `decode`. Tables are searched by halving. */
export function encode(curve: Curve, l: number): number {
  if (curve.kind === 'srgb') return linearToSrgb(l);
  if (curve.kind === 'power') return Math.sign(l) * Math.abs(l) ** (1 / curve.exponent);
  const t = curve.values;
  let lo = 0;
  let hi = t.length - 1;
  if (l <= t[0]) return 0;
  if (l >= t[hi]) return 1;
  while (hi - lo > 1) {
    const mid = (lo + hi) >> 1;
    if (t[mid] <= l) lo = mid;
    else hi = mid;
  }
  const rise = t[hi] - t[lo];
  return (lo + (rise > 0 ? (l - t[lo]) / rise : 0)) / (t.length - 1);
}

/** Linear light of every code value of a channel: 2^depth numbers. */
export function linearTable(curve: Curve, depth: 8 | 16): Float64Array {
  const n = 2 ** depth;
  const table = new Float64Array(n);
  for (let i = 0; i < n; i++) table[i] = decode(curve, i / (n - 1));
  return table;
}

/** The three tables of a space; channels with the same curve share one. */
export function linearTables(space: ColourSpace, depth: 8 | 16): [Float64Array, Float64Array, Float64Array] {
  const [r, g, b] = space.curves;
  const red = linearTable(r, depth);
  const green = g === r ? red : linearTable(g, depth);
  const blue = b === r ? red : b === g ? green : linearTable(b, depth);
  return [red, green, blue];
}

/** Intervals of a fast encoder's table. */
const INTERVALS = 8192;

/**
 * `encode` for many values: light held to 0…1, read from a table over its square root, on which all our curves are
 * nearly straight. Within 2·10⁻⁶ of `encode`, less than a seventh of a 16-bit step, but for tables of profiles with a
 * jump, which are followed to 1/8192 of the root.
 */
export function fastEncoder(curve: Curve): (light: number) => number {
  const table = new Float64Array(INTERVALS + 2);
  for (let i = 0; i <= INTERVALS; i++) table[i] = encode(curve, (i / INTERVALS) ** 2);
  table[INTERVALS + 1] = table[INTERVALS];
  return (light) => {
    const at = INTERVALS * Math.sqrt(Math.min(1, Math.max(0, light)));
    const i = Math.floor(at);
    return table[i] + (at - i) * (table[i + 1] - table[i]);
  };
}

/**
 * Pigments: reflectance by place. All are pure and seeded; lengths are in the scene's unit.
 *
 * Most vary pigment that is darker or lighter *without* being shade, which is what a reading of light has to
 * tell apart from shade.
 */
import { cloud3, hash01, noise3 } from './random.ts';
import type { Pigment, Rgb, Ripple } from './types.ts';

/** One reflectance everywhere. */
export function plain(colour: Rgb): Pigment {
  return (_at, out) => {
    out.set(colour);
  };
}

/** Multiplies by a cloudy grain: `amount` is the deviation from 1 at the extremes, `size` that of the largest spots. */
export function grain(base: Pigment, size: number, amount: number, seed: number, octaves = 3): Pigment {
  return (at, out) => {
    base(at, out);
    scale(out, 1 + amount * (2 * cloud3(at.x / size, at.y / size, at.z / size, seed, octaves) - 1));
  };
}

/** Boards along an axis with their own tone and long fibres; joints are a little darker. */
export function boards(
  colour: Rgb,
  options: {
    along: 'x' | 'y' | 'z';
    across: 'x' | 'y' | 'z';
    width: number;
    seed: number;
    tone?: number;
    joint?: number;
  },
): Pigment {
  const { along, across, width, seed, tone = 0.25, joint = 0.35 } = options;
  return (at, out) => {
    const a = at[across] / width;
    const board = Math.floor(a);
    const inside = a - board;
    const fibre = noise3(at[along] / (width * 3), inside * 9 + board * 17, 0, seed);
    let f = 1 + tone * (2 * hash01(board, 3, 0, seed) - 1) + 0.18 * (2 * fibre - 1);
    if (Math.min(inside, 1 - inside) < 0.04) f *= 1 - joint;
    out.set(colour);
    scale(out, f);
  };
}

/** Stripes of the given colours, in turn, across an axis. */
export function stripes(colours: readonly Rgb[], across: 'x' | 'y' | 'z', width: number, phase = 0): Pigment {
  return (at, out) => {
    const i = Math.floor(at[across] / width + phase);
    out.set(colours[((i % colours.length) + colours.length) % colours.length]!);
  };
}

/** Stripes around an upright axis (cloth around a cylinder, segments of a ball). */
export function segments(colours: readonly Rgb[], count: number): Pigment {
  return (at, out) => {
    const turn = Math.atan2(at.z, at.x) / (2 * Math.PI) + 0.5;
    out.set(colours[Math.floor(turn * count * colours.length) % colours.length]!);
  };
}

/** Checks of two colours on the surface: the two axes that the normal does not take. */
export function checks(a: Rgb, b: Rgb, size: number): Pigment {
  return (at, out) => {
    const [p, q] = faceAxes(at);
    const odd = (Math.floor(p / size + 1e-6) + Math.floor(q / size + 1e-6)) & 1;
    out.set(odd ? b : a);
  };
}

/** Stone blocks in courses, each with its own tone (and a breath of hue), with lighter joints. */
export function stone(
  colour: Rgb,
  size: number,
  seed: number,
  options: { tone?: number; joint?: Rgb } = {},
): Pigment {
  const { tone = 0.22 } = options;
  const joint = options.joint ?? (colour.map((c) => Math.min(0.9, c * 1.25)) as unknown as Rgb);
  return (at, out) => {
    const [p, q] = faceAxes(at);
    const course = Math.floor(q / (size * 0.55));
    const x = p / size + 0.5 * (course & 1) + 0.3 * hash01(course, 1, 0, seed);
    const block = Math.floor(x);
    const dx = Math.min(x - block, 1 - (x - block)) * size;
    const y = q / (size * 0.55) - course;
    const dy = Math.min(y, 1 - y) * size * 0.55;
    if (Math.min(dx, dy) < size * 0.035) {
      out.set(joint);
      return;
    }
    out.set(colour);
    const own = 2 * hash01(block, course, 7, seed) - 1;
    const rough = 2 * cloud3((at.x * 5) / size, (at.y * 5) / size, (at.z * 5) / size, seed, 2) - 1;
    scale(out, 1 + tone * own + 0.12 * rough);
    const hue = 0.03 * (2 * hash01(block, course, 9, seed) - 1);
    out[0] = clampRho(out[0]! * (1 + hue));
    out[2] = clampRho(out[2]! * (1 - hue));
  };
}

/** Blends two pigments by a cloud, e.g. moss on stone, mud and sand. `share` of the second about 0…1. */
export function patches(a: Pigment, b: Pigment, size: number, share: number, seed: number): Pigment {
  const other = new Float64Array(3);
  return (at, out) => {
    a(at, out);
    b(at, other);
    const n = cloud3(at.x / size, at.y / size, at.z / size, seed, 3);
    const w = Math.min(1, Math.max(0, (n - (1 - share)) * 8 + 0.5));
    for (let c = 0; c < 3; c++) out[c]! += (other[c]! - out[c]!) * w;
  };
}

/** One pigment below a height, another above, with a soft, uneven border (tide line, paint line). */
export function below(line: number, soft: number, low: Pigment, high: Pigment, seed: number): Pigment {
  const other = new Float64Array(3);
  return (at, out) => {
    high(at, out);
    low(at, other);
    const edge = line + soft * (2 * noise3(at.x / (soft * 4), 0, at.z / (soft * 4), seed) - 1);
    const w = Math.min(1, Math.max(0, (edge - at.y) / soft + 0.5));
    for (let c = 0; c < 3; c++) out[c]! += (other[c]! - out[c]!) * w;
  };
}

/** Small waves as slopes: two crossing clouds, `steep` the largest slope. */
export function ripples(length: number, steep: number, seed: number, stretch = 1): Ripple {
  const e = 0.1;
  return (x, z, out) => {
    const u = x / (length * stretch);
    const v = z / length;
    const h = cloud3(u, v, 0, seed, 3);
    out[0] = (-steep * (cloud3(u + e, v, 0, seed, 3) - h)) / e / stretch;
    out[1] = 0;
    out[2] = (-steep * (cloud3(u, v + e, 0, seed, 3) - h)) / e;
  };
}

function faceAxes(at: {
  x: number;
  y: number;
  z: number;
  nx: number;
  ny: number;
  nz: number;
}): [number, number] {
  const ax = Math.abs(at.nx);
  const ay = Math.abs(at.ny);
  const az = Math.abs(at.nz);
  if (ay >= ax && ay >= az) return [at.x, at.z];
  return ax >= az ? [at.z, at.y] : [at.x, at.y];
}

function scale(out: Float64Array, f: number): void {
  for (let c = 0; c < 3; c++) out[c] = clampRho(out[c]! * f);
}

/** Real surfaces reflect neither nothing nor everything. */
function clampRho(v: number): number {
  return Math.min(0.95, Math.max(0.005, v));
}

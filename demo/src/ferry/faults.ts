/** The planted faults, each an operation with an amount, on the passes before anything is painted. */
import { linearInto, oklabInto } from '@halflight/engine';
import { blurred } from '../paint/guide.ts';
import { surfaces } from './light.ts';
import { FILL, KEY } from './materials.ts';
import { smooth } from './numbers.ts';
import { DECK } from './parts.ts';
import type { Study } from './study.ts';
import type { Tint, Version } from './versions.ts';

/** Where a fault was planted, 0…1 by pixel of the study. */
export interface Planted {
  readonly neutral: Float32Array;
  readonly opposite: Float32Array;
  readonly strays: Float32Array;
  readonly overworked: Float32Array;
}

/** The chromaticity that a place has in full light: what shade keeps when it only darkens. */
const LIT = KEY.map((k, c) => 0.5 * k + 0.7 * FILL[c]!);
/** Fill and key of the swapped light, K/A = s²/q with s the geometric mean of q = K/A. */
const STRENGTH = 0.6;
const Q = KEY.map((k, c) => (STRENGTH * k) / FILL[c]!);
const S2 = (Q[0]! * Q[1]! * Q[2]!) ** (2 / 3);
const KEY_MEAN = (KEY[0] * KEY[1] * KEY[2]) ** (1 / 3);
const FILL_MEAN = (FILL[0] * FILL[1] * FILL[2]) ** (1 / 3);
const SWAPPED_FILL = KEY.map((k) => (k * FILL_MEAN) / KEY_MEAN);
const SWAPPED_KEY = SWAPPED_FILL.map((a, c) => (a * S2) / Q[c]!);
/** The wrong side: where the swapped light comes from. */
const WRONG_SIDE = [0.78, 0.2, 0.6] as const;

/** Light on the surfaces of a version before the air, and where its faults are. */
export function plant(study: Study, version: Version): { picture: Float32Array; planted: Planted } {
  const n = study.body.length;
  const planted: Planted = {
    neutral: new Float32Array(n),
    opposite: new Float32Array(n),
    strays: new Float32Array(n),
    overworked: new Float32Array(n),
  };
  const picture = surfaces(study);
  const { body, things, reflectance, key, fill, mirrorShare, mirror, emissive } = study;
  const dull = new Set(version.neutral.things);
  const light = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const b = body[i]!;
    if (b < 0) continue;
    const thing = things[b]!;
    const isDull = dull.has(thing);
    const isOpposite = version.opposite?.thing === thing;
    if (!isDull && !isOpposite) continue;
    for (let c = 0; c < 3; c++) light[c] = key[i * 3 + c]! + fill[i * 3 + c]!;
    const before = [...light];
    if (isDull) darkenOnly(light, version.neutral.amount);
    if (isOpposite) turnAround(study, i, light, version.opposite!.amount);
    for (let c = 0; c < 3; c++) {
      const j = i * 3 + c;
      picture[j] = reflectance[j]! * light[c]! * (1 - mirrorShare[i]!) + mirror[j]! + emissive[j]!;
    }
    const glowing = emissive[i * 3]! > 0;
    if (!glowing && isDull && chromaticMove(before, light) > 0.12) planted.neutral[i] = 1;
    if (!glowing && isOpposite && chromaticMove(before, light) > 0.12) planted.opposite[i] = 1;
  }
  // Parts are told by the colours that the picture has before any of them is changed.
  const before = picture.slice();
  for (const tint of version.tints) layTint(study, picture, before, tint, planted.strays);
  workNets(study, picture, version, planted.overworked);
  return { picture, planted };
}

/** Shade that only darkens: the light keeps its strength (mean of logarithms) and takes the lit chromaticity. */
function darkenOnly(light: number[], amount: number): void {
  const strength = Math.cbrt((light[0]! * light[1]! * light[2]!) / (LIT[0]! * LIT[1]! * LIT[2]!));
  for (let c = 0; c < 3; c++) light[c] = light[c]! ** (1 - amount) * (LIT[c]! * strength) ** amount;
}

/** Lit from the wrong side in the swapped light: ρ·(k′K′ + A′), k′ by the facing towards that side. */
function turnAround(study: Study, i: number, light: number[], amount: number): void {
  const { normal, fill } = study;
  const facing =
    normal[i * 3]! * WRONG_SIDE[0] + normal[i * 3 + 1]! * WRONG_SIDE[1] + normal[i * 3 + 2]! * WRONG_SIDE[2];
  const k = Math.max(0, facing) * paintedShadow(study, i);
  // What the fill was held back by corners and eaves holds back the swapped one as well.
  const open = Math.cbrt(fill[i * 3]! * fill[i * 3 + 1]! * fill[i * 3 + 2]!) / FILL_MEAN;
  for (let c = 0; c < 3; c++) {
    const turned = open * (SWAPPED_FILL[c]! + k * 2 * SWAPPED_KEY[c]!);
    light[c] = light[c]! ** (1 - amount) * turned ** amount;
  }
}

/**
 * The shadows that go with the wrong light on the right shed's front, as somebody would paint them: under the eaves,
 * and over its left third, slanting.
 */
function paintedShadow(study: Study, i: number): number {
  if (study.normal[i * 3 + 2]! < 0.6) return 1;
  const x = study.position[i * 3]!;
  const y = study.position[i * 3 + 1]!;
  const across = (x - RIGHT_FRONT.left) / RIGHT_FRONT.width;
  const roof = RIGHT_FRONT.eaves + RIGHT_FRONT.rise * (1 - Math.abs(2 * across - 1));
  return smooth(0.22, 0.42, across - 0.08 * (y - DECK)) * smooth(0.2, 0.5, roof - y);
}

/** The right shed's gable in metres, near enough for shadows. */
const RIGHT_FRONT = { left: 6.05, width: 4.3, eaves: DECK + 2.3, rise: 1.5 } as const;

/** Distance of two lights in the log-chromaticity plane. */
function chromaticMove(a: readonly number[], b: readonly number[]): number {
  const x = (l: readonly number[]) => (Math.log(l[0]!) - Math.log(l[1]!)) / Math.SQRT2;
  const y = (l: readonly number[]) =>
    (Math.log(l[0]!) + Math.log(l[1]!) - 2 * Math.log(l[2]!)) / Math.sqrt(6);
  return Math.hypot(x(a) - x(b), y(a) - y(b));
}

/** How much a pixel belongs to a part, from the study and its colour in OKLab. */
type Part = (study: Study, i: number, lab: ArrayLike<number>) => number;

const ramp = (a: number, b: number, t: number) => Math.min(1, Math.max(0, (t - a) / (b - a)));
const thing =
  (...names: string[]): Part =>
  (study, i) =>
    study.body[i]! >= 0 && names.includes(study.things[study.body[i]!]!) ? 1 : 0;
const isSky = (study: Study, i: number) => study.body[i]! < 0;

/** The parts that hues are put on. */
export const PARTS: Readonly<Record<string, Part>> = {
  'far shore': thing('far shore', 'spit'),
  // Mud that isn't under water or mirroring, at the left of the jetty and right in front.
  'left flats': (s, i, lab) =>
    thing('mud', 'flats')(s, i, lab) * (1 - 0.6 * ramp(0.2, 0.6, s.mirrorShare[i]!)),
  water: (s, i, lab) => thing('water')(s, i, lab) * (1 - ramp(0, 0.03, lab[2]!)),
  'right shed': thing('right shed'),
  boat: thing('boat', 'crates'),
  planks: thing('jetty', 'landing'),
  // Sky by its own colour: rosy clouds, the yellow band under them, the pale streaks above.
  'lit clouds': (s, i, lab) =>
    isSky(s, i) ? ramp(0.012, 0.026, lab[1]!) * ramp(0.055, 0.03, lab[2]!) * ramp(0.48, 0.53, lab[0]!) : 0,
  band: (s, i, lab) => (isSky(s, i) ? ramp(0.025, 0.05, lab[2]!) : 0),
  'high veil': (s, i, lab) =>
    isSky(s, i)
      ? ramp(0.006, -0.004, lab[1]!) * ramp(0.4, 0.44, lab[0]!) * ramp(0.05, 0.1, 0.6 - i / s.body.length)
      : 0,
};

function layTint(
  study: Study,
  picture: Float32Array,
  before: Float32Array,
  tint: Tint,
  strays: Float32Array,
): void {
  const part = PARTS[tint.part];
  if (!part) throw new RangeError(`No part of the picture is called ${tint.part}.`);
  const lab = new Float64Array(3);
  const rgb = new Float64Array(3);
  const a = Math.cos((tint.hue * Math.PI) / 180);
  const b = Math.sin((tint.hue * Math.PI) / 180);
  for (let i = 0; i < study.body.length; i++) {
    if (study.emissive[i * 3]! > 0) continue;
    oklabInto(lab, 0, before[i * 3]!, before[i * 3 + 1]!, before[i * 3 + 2]!);
    const w = tint.amount * part(study, i, lab);
    if (w <= 0) continue;
    oklabInto(lab, 0, picture[i * 3]!, picture[i * 3 + 1]!, picture[i * 3 + 2]!);
    const chroma = (tint.chroma * lab[0]!) / 0.5;
    linearInto(rgb, 0, lab[0]!, lab[1]! + (chroma * a - lab[1]!) * w, lab[2]! + (chroma * b - lab[2]!) * w);
    for (let c = 0; c < 3; c++) picture[i * 3 + c] = Math.max(0, rgb[c]!);
    strays[i] = Math.max(strays[i]!, w);
  }
}

/** Draws the nets' threads out of what is around them, or lets them sink into it. */
function workNets(study: Study, picture: Float32Array, version: Version, overworked: Float32Array): void {
  const { width, height } = study;
  const nets = Float32Array.from(study.body, (b) => (b >= 0 && study.things[b] === 'nets' ? 1 : 0));
  const mean = blurred(picture, width, height, 3, width / 300);
  const near = blurred(nets, width, height, 1, width / 150);
  for (let i = 0; i < nets.length; i++) {
    if (version.overworked > 0) overworked[i] = Math.min(1, near[i]! * 6);
    if (!nets[i]) continue;
    for (let c = 0; c < 3; c++) {
      const j = i * 3 + c;
      const m = mean[j]!;
      // Threads that stand out catch the light.
      const lift = version.nets > 1 ? 0.35 * m * (version.nets - 1) : 0;
      picture[j] = Math.max(0.15 * m, m + (picture[j]! - m) * version.nets + lift);
    }
  }
}

/** Grey over everything, in place: share `amount` of grey light. */
export function layVeil(picture: Float32Array, veil: Version['veil']): void {
  if (veil.amount === 0) return;
  for (let i = 0; i < picture.length; i++) picture[i]! += (veil.grey - picture[i]!) * veil.amount;
}

/** The luminance below which `share` of the picture lies. */
export function closingPoint(picture: Float32Array, share: number): number {
  const y = new Float32Array(picture.length / 3);
  for (let i = 0; i < y.length; i++) y[i] = luminanceAt(picture, i);
  y.sort();
  return y[Math.min(y.length - 1, Math.floor(share * y.length))]!;
}

/** Relative luminance at which L* is 2. */
const CLOSED = (2 * 27) / 24389;

/** Closes what is darker than `point` to below L* 2, in place, and pulls down what lies just above. */
export function closeDarks(picture: Float32Array, point: number): void {
  const n = picture.length / 3;
  for (let i = 0; i < n; i++) {
    const y = luminanceAt(picture, i);
    if (y >= 4 * point || y <= 0) continue;
    // Straight up to the point, then a smooth way back to the picture as it was.
    const t = (y - point) / (3 * point);
    const goal = y <= point ? (y / point) * CLOSED : CLOSED + (4 * point - CLOSED) * t * (0.35 + 0.65 * t);
    const f = goal / y;
    for (let c = 0; c < 3; c++) picture[i * 3 + c]! *= f;
  }
}

function luminanceAt(p: Float32Array, i: number): number {
  return 0.2126 * p[i * 3]! + 0.7152 * p[i * 3 + 1]! + 0.0722 * p[i * 3 + 2]!;
}

/** The planted faults, each an operation with an amount, on the passes before anything is painted. */
import { linearInto, oklabInto } from '@halflight/engine';
import { blurred } from '../paint/guide.ts';
import { surfaces } from './light.ts';
import { FILL, KEY } from './materials.ts';
import type { Study } from './study.ts';
import { turnAround } from './swapped.ts';
import type { Tint, Version } from './versions.ts';

/** Where a fault was planted, 0…1 by pixel of the study. */
export interface Planted {
  readonly neutral: Float32Array;
  readonly opposite: Float32Array;
  readonly strays: Float32Array;
  readonly overworked: Float32Array;
}

/** The chromaticity that a place has in full light: what shade keeps when it only darkens. */
const LIT = KEY.map((k, c) => 0.7 * k + 0.65 * FILL[c]!);
/** The light by which a pigment of another hue is mixed. */
const HALF = KEY.map((k, c) => 0.35 * k + 0.7 * FILL[c]!);
/** Materials of slender things: painted over with the next best tone, no fault can be planted or seen on them. */
const ROPES = new Set(['rope']);
const SLENDER = new Set(['rope', 'pile']);
/** Moves of the light's log-chromaticity from which a place counts as planted: shade, and any other light. */
const MOVED = { neutral: 0.2, opposite: 0.12 } as const;

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
  const { body, things, surface, surfaceNames, reflectance, key, fill, mirrorShare, mirror, emissive } =
    study;
  const dull = new Set(version.neutral.things);
  const light = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const b = body[i]!;
    if (b < 0) continue;
    const thing = things[b]!;
    const material = surfaceNames[surface[i]!]!;
    const isDull = dull.has(thing) && !ROPES.has(material);
    const isOpposite = version.opposite?.thing === thing && !SLENDER.has(material);
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
    const moved = glowing ? 0 : chromaticMove(before, light);
    if (isDull && moved > MOVED.neutral) planted.neutral[i] = 1;
    if (isOpposite && moved > MOVED.opposite) planted.opposite[i] = 1;
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

/**
 * Puts a hue on a part. Things get a pigment of that hue in the same light, so that their shade keeps its own way;
 * water, wet mud and sky, which mainly send on other light, get the hue as they are seen.
 */
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
  const from = new Float64Array(3);
  const a = Math.cos((tint.hue * Math.PI) / 180);
  const b = Math.sin((tint.hue * Math.PI) / 180);
  for (let i = 0; i < study.body.length; i++) {
    if (study.emissive[i * 3]! > 0) continue;
    oklabInto(lab, 0, before[i * 3]!, before[i * 3 + 1]!, before[i * 3 + 2]!);
    const w = tint.amount * part(study, i, lab);
    if (w <= 0) continue;
    const pigment = study.body[i]! >= 0 && tint.part !== 'water' && study.mirrorShare[i]! < 0.5;
    for (let c = 0; c < 3; c++) {
      const j = i * 3 + c;
      from[c] = pigment ? study.reflectance[j]! * HALF[c]! : picture[j]!;
    }
    oklabInto(lab, 0, from[0]!, from[1]!, from[2]!);
    const chroma = (tint.chroma * lab[0]!) / 0.5;
    linearInto(rgb, 0, lab[0]!, lab[1]! + (chroma * a - lab[1]!) * w, lab[2]! + (chroma * b - lab[2]!) * w);
    for (let c = 0; c < 3; c++) {
      const j = i * 3 + c;
      const to = Math.max(0, rgb[c]!);
      const mirrored = study.mirror[j]!;
      picture[j] = pigment ? mirrored + ((picture[j]! - mirrored) * to) / from[c]! : to;
    }
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

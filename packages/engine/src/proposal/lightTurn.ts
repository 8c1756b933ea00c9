import type { Area, AreaPart } from '../areas/area.ts';
import { luminance } from '../colour/cielab.ts';
import type { Triple } from '../colour/matrix.ts';
import type { Step } from '../edits/step.ts';
import type { LightIntent } from '../intent/intent.ts';
import { joinedAreas } from '../numbers/components.ts';
import type { Ratio } from '../readings/light/curve.ts';
import { CLOSED, LEFT_OUT, SKY } from '../readings/light/exclusions.ts';
import { logColour } from '../readings/light/logColour.ts';
import { outlineOf } from '../readings/light/outline.ts';
import { type Situation, situationOf } from '../readings/light/situations.ts';
import type { LightResult } from '../readings/light/types.ts';

/** Lit places face the key only in part: how much of it they get on the mean. Calibrated on the rendered pairs. */
const LIT = 0.7;
/** Joined areas smaller than this share of the picture take the light of what surrounds them. */
const SPECK = 0.0008;
const MOST_AREAS = 120;
/** How far outlines may be simplified, in pixels of the light reading; the guided filter brings them back to the edges. */
const TOLERANCE = 1.5;
/** Colours above this luminance that the reading could not judge shine by themselves. */
const SHINING = 0.6;

const LIT_PLACE = 0;
const SHADE_PLACE = 1;
const SHINING_PLACE = 2;
const SKY_PLACE = 3;
/** Sky goes on over a border with a smaller step than this (luminance and colour, in logarithms): clouds, the glow at the horizon. */
const CLOUD = 0.45;
/** … that is at least so many pixels long. */
const LONG = 4;

/** A key that is warmer than its fill by more than this (logarithm of red over blue) can't be turned into a cooler one. */
const WARM_KEY = 2;

/** Lit and shaded parts of a picture whose light was read. */
export interface LightParts {
  readonly lit: Area;
  readonly shade: Area;
  readonly sky: Area;
  /** Key over fill per channel, as the picture shows it. */
  readonly q: Ratio;
  /** How much of the key the judged places get on the mean. */
  readonly meanKey: number;
}

/** Tells lit from shaded parts, sky and shining things apart; null without a light. */
export function lightParts(result: LightResult): LightParts | null {
  const { q, trace, width, height } = result;
  if (!q || trace.probability.length === 0) return null;
  const sky = wholeSky(result);
  const kind = Uint8Array.from({ length: trace.count }, (_, i) => (sky[i] ? SKY_PLACE : placeOf(result, i)));
  const at = (p: number): number => (trace.regionOf[p] < 0 ? SHADE_PLACE : kind[trace.regionOf[p]]);
  const parts: { kind: number; outline: number[]; size: number }[] = [];
  let lit = 0;
  let all = 0;
  for (let p = 0; p < width * height; p++) {
    const own = at(p);
    if (own !== SHINING_PLACE && own !== SKY_PLACE) all++;
    if (own === LIT_PLACE) lit++;
  }
  for (const own of [LIT_PLACE, SHADE_PLACE, SHINING_PLACE, SKY_PLACE]) {
    const { labels, areas } = joinedAreas(width, height, (p) => at(p) === own);
    areas.forEach(({ size }, id) => {
      if (size < SPECK * width * height) return;
      const outline = outlineOf(labels, width, height, id, TOLERANCE);
      parts.push({ kind: own, outline, size: enclosed(outline) });
    });
  }
  // What encloses comes before what it encloses.
  parts.sort((a, b) => b.size - a.size);
  parts.length = Math.min(parts.length, MOST_AREAS);
  const share = (outline: readonly number[]): number[] =>
    outline.map((v, i) => Number((v / (i % 2 === 0 ? width : height)).toFixed(4)));
  const areaOf = (wanted: number): Area => ({
    soften: 0,
    parts: inRuns(parts.map((part) => ({ adds: part.kind === wanted, outline: share(part.outline) }))),
  });
  return {
    lit: areaOf(LIT_PLACE),
    shade: areaOf(SHADE_PLACE),
    sky: areaOf(SKY_PLACE),
    q,
    meanKey: all > 0 ? (LIT * lit) / all : 0,
  };
}

/**
 * Whether a light is too far from the picture's own for the turn to be good: a key that is much warmer than its fill,
 * become cooler than it. What was told a little wrongly from lit or shaded then stands out in orange or olive, and on
 * the rendered pairs far more error is left than in other lights (`docs/light-sheet.md`).
 */
export function turnsTooFar({ q }: LightParts, situation: Situation): boolean {
  return warmthOf(q) > WARM_KEY && warmthOf(situation.q) < 0;
}

/** How much warmer the key is than the fill: the logarithm of red over blue. */
function warmthOf(q: Ratio): number {
  return Math.log(q[0] / q[2]);
}

/**
 * The sky that the reading left out, with its clouds and the glow at the horizon: joined to it over borders without a
 * step. What it reaches beside, calm water, mirrors it.
 */
function wholeSky({ trace, width, height }: LightResult): Uint8Array {
  const { count, regionOf, rgb, excluded } = trace;
  const borders = new Map<number, number>();
  const touch = (a: number, b: number): void => {
    if (a === b || a < 0 || b < 0) return;
    const key = a < b ? a * count + b : b * count + a;
    borders.set(key, (borders.get(key) ?? 0) + 1);
  };
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      if (x < width - 1) touch(regionOf[i], regionOf[i + 1]);
      if (y < height - 1) touch(regionOf[i], regionOf[i + width]);
    }
  const colours = Array.from({ length: count }, (_, i) =>
    logColour(rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]),
  );
  const near: number[][] = colours.map(() => []);
  for (const [key, length] of borders) {
    const [a, b] = [Math.floor(key / count), key % count];
    const [p, q] = [colours[a], colours[b]];
    if (length < LONG || Math.abs(p.l - q.l) + Math.hypot(p.x - q.x, p.y - q.y) > CLOUD) continue;
    near[a].push(b);
    near[b].push(a);
  }
  const sky = Uint8Array.from(excluded, (e) => (e === SKY ? 1 : 0));
  const queue = [...sky.keys()].filter((i) => sky[i] === 1);
  for (let i = queue.pop(); i !== undefined; i = queue.pop())
    for (const j of near[i]) {
      if (sky[j] || excluded[j] === LEFT_OUT) continue;
      sky[j] = 1;
      queue.push(j);
    }
  return sky;
}

function placeOf({ trace }: LightResult, region: number): number {
  const excluded = trace.excluded[region];
  if (excluded === CLOSED) {
    const [r, g, b] = trace.rgb.subarray(3 * region, 3 * region + 3);
    return luminance(r, g, b) > SHINING ? SHINING_PLACE : SHADE_PLACE;
  }
  return trace.probability[4 * region] > 0.5 ? LIT_PLACE : SHADE_PLACE;
}

/**
 * Outlines in order; neighbours that both add or both take away share a part, unless one may enclose the other: outlines
 * of one part are filled even–odd.
 */
function inRuns(parts: readonly { readonly adds: boolean; readonly outline: number[] }[]): AreaPart[] {
  const out: { joining: 'add' | 'subtract'; kind: 'outline'; outlines: number[][] }[] = [];
  for (const { adds, outline } of parts) {
    const joining = adds ? 'add' : 'subtract';
    // Nothing can be taken from nothing.
    if (out.length === 0 && !adds) continue;
    const last = out.at(-1);
    if (last?.joining === joining && !last.outlines.some((other) => mayEnclose(other, outline)))
      last.outlines.push(outline);
    else out.push({ joining, kind: 'outline', outlines: [outline] });
  }
  return out;
}

/** True when the boxes of two outlines meet. */
function mayEnclose(a: readonly number[], b: readonly number[]): boolean {
  const [p, q] = [boxOf(a), boxOf(b)];
  return p.left < q.right && q.left < p.right && p.top < q.bottom && q.top < p.bottom;
}

function boxOf(outline: readonly number[]): { left: number; right: number; top: number; bottom: number } {
  const box = { left: 1, right: 0, top: 1, bottom: 0 };
  for (let i = 0; i < outline.length; i += 2) {
    box.left = Math.min(box.left, outline[i]);
    box.right = Math.max(box.right, outline[i]);
    box.top = Math.min(box.top, outline[i + 1]);
    box.bottom = Math.max(box.bottom, outline[i + 1]);
  }
  return box;
}

/** Area inside a polygon (shoelace formula), in pixels. */
function enclosed(outline: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < outline.length; i += 2) {
    const j = (i + 2) % outline.length;
    sum += outline[i] * outline[j + 1] - outline[j] * outline[i + 1];
  }
  return Math.abs(sum) / 2;
}

/**
 * The steps that put a picture into another light: lit and shaded parts each move along the light's own curve, values
 * stay.
 *
 * A place that gets the share k of the key shows ρ(kK + A); in the new light ρ(kK′ + A′), at the contrast of the
 * picture. A sky is no surface: its cool colours become those of the new light's cooler part, its warm ones those of the
 * warmer. The colour of the present light as a whole can't be told from the picture: it is the declared situation's,
 * otherwise white on the mean over the picture.
 */
export function turnSteps(parts: LightParts, present: LightIntent | undefined, to: Situation): Step[] {
  const { q, meanKey } = parts;
  const declared = present?.kind === 'situation' ? situationOf(present.name) : undefined;
  const fill: Triple = declared
    ? [declared.fill[0], declared.fill[1], declared.fill[2]]
    : [1 / (1 + meanKey * q[0]), 1 / (1 + meanKey * q[1]), 1 / (1 + meanKey * q[2])];
  const key: Triple = [fill[0] * q[0], fill[1] * q[1], fill[2] * q[2]];
  const contrast = luminance(...key) / luminance(...fill);
  const step = (area: Area, k: number): Step => {
    const raw = fill.map((old, c) => (to.fill[c] + k * contrast * to.key[c]) / (old + k * key[c]));
    const scale = luminance(raw[0], raw[1], raw[2]);
    const [r, g, b] = raw.map((v) => Number((v / scale).toFixed(4)));
    return {
      kind: 'relight',
      on: true,
      strength: 1,
      values: { amount: 100 },
      data: { gains: [r, g, b] },
      area,
    };
  };
  return [step(parts.shade, 0), step(parts.lit, LIT), skyStep(parts.sky, key, fill, to)].filter(
    ({ area }) => area!.parts.length > 0,
  );
}

function skyStep(area: Area, key: Triple, fill: Triple, to: Situation): Step {
  const [cool, warm] = byWarmth(key, fill);
  const [newCool, newWarm] = byWarmth(to.key, to.fill);
  return {
    kind: 'relight',
    on: true,
    strength: 1,
    values: { amount: 100 },
    data: {
      gains: gainsOf(cool, newCool),
      across: { cool: rounded(cool), warm: rounded(warm), gains: gainsOf(warm, newWarm) },
    },
    area,
  };
}

/** The cooler one first: the one with more blue for its red. */
function byWarmth(a: Triple, b: Triple): [Triple, Triple] {
  return a[2] * b[0] >= b[2] * a[0] ? [a, b] : [b, a];
}

/** What turns one light into another at equal luminance. */
function gainsOf(from: Triple, to: Triple): [number, number, number] {
  const raw: Triple = [to[0] / from[0], to[1] / from[1], to[2] / from[2]];
  const scale = luminance(...to) / luminance(...from);
  return rounded([raw[0] / scale, raw[1] / scale, raw[2] / scale]);
}

function rounded([r, g, b]: Triple): [number, number, number] {
  return [Number(r.toFixed(4)), Number(g.toFixed(4)), Number(b.toFixed(4))];
}

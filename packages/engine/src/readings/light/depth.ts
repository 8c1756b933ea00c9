import { shareOfAir, veiled } from './air.ts';
import { fromLogColour, logColour } from './logColour.ts';
import type { Pieces } from './pieces.ts';
import type { Regions } from './regions.ts';

/** The picture is looked at in so many upright strips, each from its upper edge down. */
const STRIPS = 12;
/** A depth that spans fewer strips side by side, or less of the picture's height, is a thing. Our defaults. */
const BROAD = 4;
const TALL = 0.2;
/** The lower edges that are tried, as steps of the height. */
const STOPS = 20;
/** Least change of ℓ from the near to the far end, and share of its two ends and of what lies between. A wall and a floor have two tones, nothing between. */
const LEAST_CHANGE = 0.35;
const LEAST_PART = 0.08;
const END_TONES = 0.12;
/** Least share of a strip that lies on the way into the air, within so much log-chromaticity. Our defaults. */
const ON_THE_WAY = 0.75;
const MISS = 0.08;
/** Least correlation of ℓ with height along it. Our default. */
const STEADY = 0.75;
/** Strips that lie side by side fade into one air if its colour and ℓ differ by less than this. */
const ONE_AIR = 0.1;
const ONE_TONE = 0.6;
/** Share of a strip's depth at each end whose middle colour is that of the end. */
const END = 0.15;

/** A strip that fades upwards: its regions that do, the way they go, and the colour at its far end. */
interface Fade {
  readonly members: readonly number[];
  readonly sign: number;
  readonly x: number;
  readonly y: number;
  readonly l: number;
}

/**
 * Share of each piece, 0…1, that belongs to a depth without a seen sky: from the upper edge down over a broad front,
 * tones pass steadily through several layers into one colour, I = J·t + A·(1 − t), which is that of the air.
 *
 * Shade does so over one thing, or in two tones; what does it over the breadth of a picture is distance.
 */
export function depthOf(regions: Regions, pieces: Pieces): Float64Array {
  const strips: (Fade | null)[] = Array.from({ length: STRIPS }, (_, s) =>
    fadeOf(regions, stripOf(regions, pieces, s)),
  );
  const deep = new Float64Array(pieces.count);
  for (let from = 0; from < STRIPS; ) {
    let to = from + 1;
    while (to < STRIPS && oneAir(strips[to - 1], strips[to])) to++;
    if (to - from >= BROAD)
      for (let s = from; s < to; s++)
        for (const i of strips[s]!.members) deep[pieces.of[i]] += regions.area[i];
    from = to;
  }
  return deep.map((v, p) => v / pieces.area[p]);
}

function oneAir(a: Fade | null, b: Fade | null): boolean {
  if (!a || !b || a.sign !== b.sign) return false;
  return Math.hypot(a.x - b.x, a.y - b.y) < ONE_AIR && Math.abs(a.l - b.l) < ONE_TONE;
}

/** Judged regions of one upright strip, from above to below. */
function stripOf({ count, px, py, segmentation }: Regions, pieces: Pieces, s: number): number[] {
  const out: number[] = [];
  for (let i = 0; i < count; i++)
    if (pieces.of[i] >= 0 && Math.min(STRIPS - 1, Math.floor((STRIPS * px[i]) / segmentation.width)) === s)
      out.push(i);
  return out.sort((a, b) => py[a] - py[b] || a - b);
}

/** The tallest part of a strip, from its upper end down, that fades steadily; null without. */
function fadeOf(regions: Regions, strip: readonly number[]): Fade | null {
  const { height } = regions.segmentation;
  const { py } = regions;
  for (let stop = STOPS; stop > 0; stop--) {
    const band = strip.filter((i) => py[i] < (stop / STOPS) * height);
    if (band.length < 12 || py[band.at(-1)!] - py[band[0]] < TALL * height) return null;
    const fade = fades(regions, band);
    if (fade) return fade;
  }
  return null;
}

function fades(regions: Regions, band: readonly number[]): Fade | null {
  const { x, y, l, py, area } = regions;
  const n = Math.max(2, Math.round(END * band.length));
  const far = middle(regions, band.slice(0, n));
  const near = middle(regions, band.slice(-n));
  const change = far.l - near.l;
  if (Math.abs(change) < LEAST_CHANGE) return null;
  const air = fromLogColour(far);
  const paint = fromLogColour(near);
  const members: number[] = [];
  const parts = [0, 0, 0];
  let all = 0;
  for (const i of band) {
    all += area[i];
    const share = shareOfAir(paint, air, l[i]);
    const mixed = logColour(...veiled(paint, air, share));
    if (Math.hypot(mixed.x - x[i], mixed.y - y[i]) > MISS) continue;
    members.push(i);
    const way = (l[i] - near.l) / change;
    parts[way < END_TONES ? 0 : way > 1 - END_TONES ? 2 : 1] += area[i];
  }
  const sum = parts[0] + parts[1] + parts[2];
  if (sum < ON_THE_WAY * all || Math.min(...parts) < LEAST_PART * sum) return null;
  const sign = -Math.sign(change);
  return sign * correlation(members, py, l, area) < STEADY ? null : { members, sign, ...far };
}

/** Medians of x, y and ℓ. */
function middle({ x, y, l }: Regions, of: readonly number[]) {
  const median = (v: Float64Array) => of.map((i) => v[i]).sort((a, b) => a - b)[of.length >> 1];
  return { x: median(x), y: median(y), l: median(l) };
}

/** Pearson's correlation of two values of some regions, by area. */
function correlation(of: readonly number[], a: Float64Array, b: Float64Array, area: Float64Array): number {
  const sum = (f: (i: number) => number) => of.reduce((s, i) => s + area[i] * f(i), 0);
  const all = sum(() => 1);
  const ma = sum((i) => a[i]) / all;
  const mb = sum((i) => b[i]) / all;
  const spread = Math.sqrt(sum((i) => (a[i] - ma) ** 2) * sum((i) => (b[i] - mb) ** 2));
  return spread > 0 ? sum((i) => (a[i] - ma) * (b[i] - mb)) / spread : 0;
}

import { buildCensus, type Census } from '../../census/census.ts';
import { chromaLimit } from '../../colour/chromaLimit.ts';
import { lightness, luminance } from '../../colour/cielab.ts';
import { fromSrgb } from '../../colour/gamut.ts';
import { linearInto } from '../../colour/oklab.ts';
import type { ColourSpace } from '../../colour/space.ts';
import { stepKind } from '../../edits/list.ts';
import type { StepId } from '../../edits/step.ts';
import { CLIPS, CLOSED } from '../../findings/thresholds/headroom.ts';
import type { Directions } from './types.ts';

/** A colour may pass a limit by rounding only. */
const SLACK = 1e-9;
/** Halvings after the first crossing. */
const HALVINGS = 9;
/** Colours nearer than this in OKLab are walked as one; only the crossing itself is found on all of them. */
const COARSE = 0.02;

/** Which colours count as used up after an edit. */
type Clips = 'channels' | 'darks' | 'both';

/** How a direction is walked: the parameter, its start, and steps that are small against what one would edit. */
interface Walk {
  readonly step: StepId;
  readonly key: string;
  readonly neutral: number;
  readonly by: number;
  readonly to: number;
  readonly clips: Clips;
  /** Leaves out cells that can't clip in this direction. */
  readonly only?: (L: number, chroma: number) => boolean;
}

/**
 * How far each edit can go before a further 1 % of the area clips: the real kernel, before gamut mapping.
 *
 * Pixels that stand at a limit already don't count as further. Not every direction is monotone, so that each is walked
 * in small steps to the first crossing, which is then halved.
 */
export function directions(census: Census, space: ColourSpace): Directions {
  const walk = walker(census, space);
  const limit = chromaLimit(space);
  // The least chroma that any hue can have at a lightness: colours below it can turn all the way round.
  const least = Float64Array.from({ length: 101 }, (_, k) => {
    let low = Number.POSITIVE_INFINITY;
    for (let hue = 0; hue < 360; hue += 2) low = Math.min(low, limit(k / 100, hue));
    return low;
  });
  const mayTurnOut = (L: number, chroma: number): boolean => {
    const k = Math.min(99, Math.max(0, Math.floor(100 * L)));
    return chroma > 0.9 * Math.min(least[k], least[k + 1]);
  };
  const turn = (sign: number): number =>
    walk({
      step: 'hueTurn',
      key: 'degrees',
      neutral: 0,
      by: 2 * sign,
      to: 180 * sign,
      clips: 'channels',
      only: mayTurnOut,
    }) ?? 180 * sign;
  const warmth = (sign: number, to: number): number | null =>
    walk({ step: 'warmth', key: 'mired', neutral: 0, by: 8 * sign, to: sign * to, clips: 'channels' });
  const exposure = (sign: number, clips: Clips): number | null =>
    walk({ step: 'exposure', key: 'stops', neutral: 0, by: 0.1 * sign, to: 4 * sign, clips });
  const magnitude = (v: number | null): number | null => (v === null ? null : Math.abs(v));
  return {
    exposureUp: exposure(1, 'channels'),
    exposureDown: magnitude(exposure(-1, 'darks')),
    contrast: walk({ step: 'contrast', key: 'amount', neutral: 0, by: 0.05, to: 1.5, clips: 'both' }),
    chromaGain: walk({
      step: 'chroma',
      key: 'gain',
      neutral: 1,
      by: 0.08,
      to: 4,
      clips: 'channels',
      only: (_, c) => c > 0.005,
    }),
    hueTurnLeft: turn(1),
    hueTurnRight: Math.abs(turn(-1)),
    warmer: warmth(1, 300),
    cooler: magnitude(warmth(-1, 150)),
  };
}

function walker(census: Census, space: ColourSpace): (walk: Walk) => number | null {
  const m = fromSrgb(space);
  const out = (rgb: Float64Array): boolean => {
    const r = m[0] * rgb[0] + m[1] * rgb[1] + m[2] * rgb[2];
    const g = m[3] * rgb[0] + m[4] * rgb[1] + m[5] * rgb[2];
    const b = m[6] * rgb[0] + m[7] * rgb[1] + m[8] * rgb[2];
    return r < -SLACK || g < -SLACK || b < -SLACK || r > 1 + SLACK || g > 1 + SLACK || b > 1 + SLACK;
  };
  const closed = (rgb: Float64Array): boolean => lightness(luminance(rgb[0], rgb[1], rgb[2])) < CLOSED.dark;
  const clipped = (rgb: Float64Array, clips: Clips): boolean =>
    (clips !== 'darks' && out(rgb)) || (clips !== 'channels' && closed(rgb));

  const coarse = coarser(census);
  const one = new Float64Array(3);
  /** Share of the area that newly clips at a value, over one set of cells. */
  const counter = (cells: Census, walk: Walk): ((value: number) => number) => {
    const kind = stepKind(walk.step);
    const kept: number[] = [];
    const free: number[] = [];
    for (let i = 0; i < cells.count; i++) {
      const chroma = Math.hypot(cells.lab[3 * i + 1], cells.lab[3 * i + 2]);
      if (walk.only && !walk.only(cells.lab[3 * i], chroma)) continue;
      for (let c = 0; c < 3; c++) one[c] = cells.rgb[3 * i + c];
      if (clipped(one, walk.clips)) continue;
      const held =
        walk.clips === 'darks' ? 0 : Math.min(cells.share[i], cells.atFloor[i] + cells.atCeiling[i]);
      kept.push(3 * i);
      free.push(cells.share[i] - held);
    }
    return (value) => {
      const kernel = kind.kernel({ kind: walk.step, on: true, strength: 1, values: { [walk.key]: value } });
      const inLab = kernel.on === 'oklab';
      const source = inLab ? cells.lab : cells.rgb;
      let sum = 0;
      for (let k = 0; k < kept.length; k++) {
        const at = kept[k];
        for (let c = 0; c < 3; c++) one[c] = source[at + c];
        kernel.change(one, 0, 1);
        if (inLab) linearInto(one, 0, one[0], one[1], one[2]);
        if (clipped(one, walk.clips)) sum += free[k];
      }
      return sum;
    };
  };
  return (walk) => firstCrossing(counter(coarse, walk), counter(census, walk), walk);
}

/** The census with near colours joined: a few hundred cells, for walking. */
function coarser(census: Census): Census {
  const groups = new Map<number, number[]>();
  for (let i = 0; i < census.count; i++) {
    const [L, a, b] = [0, 1, 2].map((c) => Math.round(census.lab[3 * i + c] / COARSE));
    const key = (L * 256 + a + 128) * 256 + b + 128;
    const sum = groups.get(key) ?? [0, 0, 0, 0, 0, 0];
    const share = census.share[i];
    sum[0] += share;
    sum[1] += census.atFloor[i];
    sum[2] += census.atCeiling[i];
    for (let c = 0; c < 3; c++) sum[3 + c] += share * census.rgb[3 * i + c];
    groups.set(key, sum);
  }
  const builder = buildCensus();
  for (const [w, floor, ceiling, r, g, b] of groups.values())
    builder.add(w, floor, ceiling, r / w, g / w, b / w);
  return builder.finish();
}

/**
 * First value at which the share reaches the limit; null when it never does.
 *
 * Walked on the coarse count; around its crossing the exact count decides, stepping back or on where they differ.
 */
function firstCrossing(
  coarse: (value: number) => number,
  exact: (value: number) => number,
  { neutral, by, to }: Walk,
): number | null {
  const steps = Math.round(Math.abs((to - neutral) / by));
  const at = (k: number): number => neutral + k * by;
  let k = 1;
  while (k <= steps && coarse(at(k)) < CLIPS) k++;
  if (k > steps) k = steps;
  while (k <= steps && exact(at(k)) < CLIPS) k++;
  if (k > steps) return null;
  while (k > 1 && exact(at(k - 1)) >= CLIPS) k--;
  let good = at(k - 1);
  let bad = at(k);
  for (let h = 0; h < HALVINGS; h++) {
    const mid = (good + bad) / 2;
    if (exact(mid) < CLIPS) good = mid;
    else bad = mid;
  }
  return good;
}

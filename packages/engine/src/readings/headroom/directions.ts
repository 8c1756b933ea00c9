import { buildCensus, type Census } from '../../census/census.ts';
import { luminance, luminanceOf } from '../../colour/cielab.ts';
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
/** Where the coarse count stays below this part of the limit, the exact one is not asked. */
const DOUBT = 0.3;

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
  /** Channels at which limits count as used up before: a pure orange has no blue to lose, but may still get lighter. */
  readonly used: 'none' | 'ceiling' | 'both';
  /** Leaves out cells that can't clip in this direction. */
  readonly only?: (L: number, chroma: number) => boolean;
}

/**
 * How far each edit can go before a further 1 % of the area clips: the real kernel, before gamut mapping.
 *
 * Pixels that stand at such a limit already don't count as further. Not every direction is monotone, so that each is walked
 * in small steps to the first crossing, which is then halved.
 */
export function directions(census: Census, space: ColourSpace): Directions {
  const walk = walker(census, space);
  const mayTurnOut = turningLimit(space);
  const turn = (sign: number): number =>
    walk({
      step: 'hueTurn',
      key: 'degrees',
      neutral: 0,
      by: 2 * sign,
      to: 180 * sign,
      clips: 'channels',
      used: 'both',
      only: mayTurnOut,
    }) ?? 180 * sign;
  const warmth = (sign: number, to: number): number | null =>
    walk({
      step: 'warmth',
      key: 'mired',
      neutral: 0,
      by: 8 * sign,
      to: sign * to,
      clips: 'channels',
      used: 'both',
    });
  const exposure = (sign: number, clips: Clips, used: Walk['used']): number | null =>
    walk({ step: 'exposure', key: 'stops', neutral: 0, by: 0.1 * sign, to: 4 * sign, clips, used });
  const magnitude = (v: number | null): number | null => (v === null ? null : Math.abs(v));
  return {
    exposureUp: exposure(1, 'channels', 'ceiling'),
    exposureDown: magnitude(exposure(-1, 'darks', 'none')),
    contrast: walk({
      step: 'contrast',
      key: 'amount',
      neutral: 0,
      by: 0.05,
      to: 1.5,
      clips: 'both',
      used: 'ceiling',
    }),
    chromaGain: walk({
      step: 'chroma',
      key: 'gain',
      neutral: 1,
      by: 0.08,
      to: 4,
      clips: 'channels',
      used: 'both',
      only: (_, c) => c > 0.005,
    }),
    hueTurnLeft: turn(1),
    hueTurnRight: Math.abs(turn(-1)),
    warmer: warmth(1, 300),
    cooler: magnitude(warmth(-1, 150)),
  };
}

/** Tells whether some hue turn can take a colour out of the gamut (sure when it says no). */
function turningLimit(space: ColourSpace): (L: number, chroma: number) => boolean {
  const inside = insideOf(space);
  const one = new Float64Array(3);
  // The least chroma that any hue can have, at 40 lightnesses and 90 hues.
  const least = Float64Array.from({ length: 41 }, (_, k) => {
    let low = 0.4;
    for (let hue = 0; hue < 360; hue += 4) {
      const t = (hue * Math.PI) / 180;
      const fits = (chroma: number): boolean => {
        linearInto(one, 0, k / 40, chroma * Math.cos(t), chroma * Math.sin(t));
        return inside(one);
      };
      if (fits(low)) continue;
      let bad = low;
      low = 0;
      for (let h = 0; h < 8; h++) {
        const mid = (low + bad) / 2;
        if (fits(mid)) low = mid;
        else bad = mid;
      }
    }
    return low;
  });
  return (L, chroma) => {
    const k = Math.min(39, Math.max(0, Math.floor(40 * L)));
    return chroma > 0.85 * Math.min(least[k], least[k + 1]);
  };
}

function insideOf(space: ColourSpace): (rgb: Float64Array) => boolean {
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = fromSrgb(space);
  return (rgb) => {
    const r = m0 * rgb[0] + m1 * rgb[1] + m2 * rgb[2];
    const g = m3 * rgb[0] + m4 * rgb[1] + m5 * rgb[2];
    const b = m6 * rgb[0] + m7 * rgb[1] + m8 * rgb[2];
    return !(r < -SLACK || g < -SLACK || b < -SLACK || r > 1 + SLACK || g > 1 + SLACK || b > 1 + SLACK);
  };
}

function walker(census: Census, space: ColourSpace): (walk: Walk) => number | null {
  const inside = insideOf(space);
  const dark = luminanceOf(CLOSED.dark);
  const closed = (rgb: Float64Array): boolean => luminance(rgb[0], rgb[1], rgb[2]) < dark;
  const clipped = (rgb: Float64Array, clips: Clips): boolean =>
    (clips !== 'darks' && !inside(rgb)) || (clips !== 'channels' && closed(rgb));

  const coarse = coarser(census);
  const one = new Float64Array(3);
  /** Share of the area that newly clips at a value, over one set of cells. */
  const counter = (cells: Census, walk: Walk): ((value: number) => number) => {
    const kind = stepKind(walk.step);
    const kept = new Int32Array(cells.count);
    const free = new Float64Array(cells.count);
    let count = 0;
    for (let i = 0; i < cells.count; i++) {
      const [L, a, b] = [cells.lab[3 * i], cells.lab[3 * i + 1], cells.lab[3 * i + 2]];
      if (walk.only && !walk.only(L, Math.sqrt(a * a + b * b))) continue;
      for (let c = 0; c < 3; c++) one[c] = cells.rgb[3 * i + c];
      if (clipped(one, walk.clips)) continue;
      const used =
        (walk.used === 'none' ? 0 : cells.atCeiling[i]) + (walk.used === 'both' ? cells.atFloor[i] : 0);
      kept[count] = 3 * i;
      free[count++] = Math.max(0, cells.share[i] - used);
    }
    return (value) => {
      const kernel = kind.kernel({ kind: walk.step, on: true, strength: 1, values: { [walk.key]: value } });
      const inLab = kernel.on === 'oklab';
      const source = inLab ? cells.lab : cells.rgb;
      let sum = 0;
      for (let k = 0; k < count; k++) {
        const at = kept[k];
        one[0] = source[at];
        one[1] = source[at + 1];
        one[2] = source[at + 2];
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
 * Walked on the coarse count; wherever that comes near the limit, the exact count decides.
 */
function firstCrossing(
  coarse: (value: number) => number,
  exact: (value: number) => number,
  { neutral, by, to }: Walk,
): number | null {
  const steps = Math.round(Math.abs((to - neutral) / by));
  const at = (k: number): number => neutral + k * by;
  const crosses = (k: number): boolean => exact(at(k)) >= CLIPS;
  let k = 1;
  while (k <= steps && (coarse(at(k)) < DOUBT * CLIPS || !crosses(k))) k++;
  if (k > steps) return null;
  while (k > 1 && crosses(k - 1)) k--;
  let good = at(k - 1);
  let bad = at(k);
  for (let h = 0; h < HALVINGS; h++) {
    const mid = (good + bad) / 2;
    if (exact(mid) < CLIPS) good = mid;
    else bad = mid;
  }
  return good;
}

import { hueName } from '../colour/words.ts';
import { listOf } from '../findings/wording.ts';
import type { HueArc, Intent, MoodAxis, MoodTargets } from '../intent/intent.ts';
import { MOOD_AXES } from '../intent/moodAxes.ts';
import { type MoodMeasures, moodDistance } from '../intent/moodDistance.ts';
import { liesApart, medianOf, modifiedScores, SERIES_NEEDED } from './statistics.ts';
import type { LineWork } from './work.ts';

/** What a series keeps together by. */
export type SeriesAspect = 'hue' | 'key' | 'light' | 'mood';

/** A work that falls out of its series. */
export interface OffWork {
  /** Place in the series. */
  readonly work: number;
  readonly aspect: SeriesAspect;
  /** One sentence on how it differs. */
  readonly text: string;
}

/** What a series has in common, and who falls out of it. */
export interface Consistency {
  /** False below `SERIES_NEEDED` works: nothing is said of them. */
  readonly told: boolean;
  readonly off: readonly OffWork[];
  /** What the series has in common as an intent: a proposal against it is the edit that brings a work in. */
  readonly intent: Intent;
}

/** Axes of the mood of a series; key and spread of hues have aspects of their own. */
const MOOD: readonly MoodAxis[] = ['warmCool', 'heavyLight', 'contrast', 'softness'];

/** Below these nobody sees a difference in a series, however alike the rest is. Our defaults. */
const FLOOR = { hue: 0.35, key: MOOD_AXES.key.tolerance, light: 0.35, mood: 0.5 } as const;
/** A family belongs to the series when so many of its works have it. Common practice, no source. */
const SHARED = 0.5;
const ARC = 60;

/**
 * How well a set of works keeps together in hue plan, key, light shift and mood. The middle of the set is the median,
 * which a few that are off don't move; a work is off when its distance from the middle lies apart from those of the
 * others and can be seen.
 */
export function consistencyOf(works: readonly LineWork[]): Consistency {
  const intent = seriesIntent(works);
  if (works.length < SERIES_NEEDED) return { told: false, off: [], intent };
  return {
    told: true,
    off: [...byKey(works), ...byHue(works), ...byLight(works), ...byMood(works, intent)],
    intent,
  };
}

function byKey(works: readonly LineWork[]): OffWork[] {
  const keys = works.map(({ values }) => values['mood.key'] ?? null);
  const middle = medianOf(held(keys));
  return offBy(
    'key',
    keys.map((key) => (key === null ? null : Math.abs(key - middle))),
    (k) => {
      const by = Math.round((keys[k] ?? 0) - middle);
      return `It is ${by > 0 ? MOOD_AXES.key.more : MOOD_AXES.key.less} than the series, by ${Math.abs(by)} L*.`;
    },
  );
}

function byHue(works: readonly LineWork[]): OffWork[] {
  const centres = works.map(hueCentre);
  return offBy('hue', distances(centres), (k) => {
    const [own, theirs] = [centres[k], middleOf(centres)];
    const named = (at: Point | null): string =>
      at && Math.hypot(...at) > 0.2 ? hueName(degrees(at)) : 'many hues';
    return named(own) === named(theirs)
      ? 'Its hues lie elsewhere than those of the series.'
      : `Its colour leans to ${named(own)}, that of the series to ${named(theirs)}.`;
  });
}

function byLight(works: readonly LineWork[]): OffWork[] {
  const shifts = works.map(({ readings: { light } }): Point | null => {
    const shift = light?.shift as { x: number; y: number } | null | undefined;
    return shift && light.evidence !== 'weak' ? [shift.x, shift.y] : null;
  });
  const middle = middleOf(shifts);
  return offBy('light', distances(shifts), (k) => {
    const [own, theirs] = [Math.hypot(...(shifts[k] ?? [0, 0])), Math.hypot(...(middle ?? [0, 0]))];
    if (own < 0.5 * theirs) return 'From shade to light its colour turns less than in the series.';
    if (own > 2 * theirs) return 'From shade to light its colour turns more than in the series.';
    return 'From shade to light its colour turns another way than in the series.';
  });
}

function byMood(works: readonly LineWork[], { mood }: Intent): OffWork[] {
  const axes = Object.fromEntries(
    MOOD.flatMap((axis) => (mood?.axes[axis] ? [[axis, mood.axes[axis]]] : [])),
  ) as MoodTargets;
  const found = works.map((work) => moodDistance(measuresOf(work), axes));
  return offBy(
    'mood',
    found.map((distance) => distance?.total ?? null),
    (k) => {
      const apart = Object.entries(found[k]?.axes ?? {}) as [MoodAxis, number][];
      const named = apart
        .filter(([, steps]) => Math.abs(steps) >= FLOOR.mood)
        .sort(([, a], [, b]) => Math.abs(b) - Math.abs(a))
        .map(([axis, steps]) => (steps > 0 ? MOOD_AXES[axis].more : MOOD_AXES[axis].less));
      return `It is ${listOf(named)} than the series.`;
    },
  );
}

/** Works whose distance lies apart from the others' and above the floor. */
function offBy(
  aspect: SeriesAspect,
  far: readonly (number | null)[],
  words: (work: number) => string,
): OffWork[] {
  if (held(far).length < SERIES_NEEDED) return [];
  const scores = modifiedScores(far);
  return far.flatMap((distance, work) => {
    const off =
      distance !== null && distance >= FLOOR[aspect] && liesApart(scores[work]) && (scores[work] ?? 0) > 0;
    return off ? [{ work, aspect, text: words(work) }] : [];
  });
}

/**
 * What the works have in common as an intent: on every axis of mood the median with the series' own spread as
 * tolerance (at least the axis' usual one), and the families of hue that most of the works have.
 */
export function seriesIntent(works: readonly LineWork[]): Intent {
  const axes: Partial<Record<MoodAxis, { at: number; tolerance: number }>> = {};
  for (const axis of [...MOOD, 'key', 'hueSpread'] as const) {
    const values = held(works.map((work) => measuresOf(work)[axis]));
    if (values.length === 0) continue;
    const at = medianOf(values);
    const spread = medianOf(values.map((value) => Math.abs(value - at)));
    axes[axis] = { at, tolerance: Math.max(MOOD_AXES[axis].tolerance, 1.4826 * spread) };
  }
  const families = sharedFamilies(works);
  return {
    schema: 'halflight/intent@1',
    ...(Object.keys(axes).length > 0 && { mood: { axes } }),
    ...(families.length > 0 && { hue: { families } }),
  };
}

interface Family {
  readonly hue: number;
  readonly weightShare: number;
}

const familiesOf = ({ readings: { hueSpread } }: LineWork): readonly Family[] =>
  hueSpread && hueSpread.evidence !== 'weak' ? ((hueSpread.families as Family[]) ?? []) : [];

/** Families of hue that at least half of the works have, each within its arc; the weightiest first. */
function sharedFamilies(works: readonly LineWork[]): HueArc[] {
  const all = works.flatMap((work, k) =>
    familiesOf(work).map(({ hue, weightShare }) => ({ k, hue, weightShare })),
  );
  let open = all;
  const arcs: (HueArc & { weight: number })[] = [];
  while (open.length > 0) {
    const near = (hue: number): typeof open => open.filter((one) => turn(one.hue, hue) <= ARC / 2);
    const best = open.map(({ hue }) => near(hue)).reduce((a, b) => (weightOf(b) > weightOf(a) ? b : a));
    const at: Point = [0, 0];
    for (const { hue, weightShare } of best) {
      at[0] += weightShare * Math.cos((hue * Math.PI) / 180);
      at[1] += weightShare * Math.sin((hue * Math.PI) / 180);
    }
    if (new Set(best.map(({ k }) => k)).size >= SHARED * works.length)
      arcs.push({ hue: degrees(at), width: ARC, weight: weightOf(best) });
    open = open.filter((one) => !best.includes(one));
  }
  return arcs.sort((a, b) => b.weight - a.weight).map(({ hue, width }) => ({ hue, width }));
}

const weightOf = (some: readonly { readonly weightShare: number }[]): number =>
  some.reduce((sum, { weightShare }) => sum + weightShare, 0);

export type Point = [number, number];

/** Centre of a work's hues on the circle, by the weight of its families; near the middle when they are many. */
export function hueCentre(work: LineWork): Point | null {
  const families = familiesOf(work);
  if (families.length === 0) return null;
  const at: Point = [0, 0];
  for (const { hue, weightShare } of families) {
    at[0] += weightShare * Math.cos((hue * Math.PI) / 180);
    at[1] += weightShare * Math.sin((hue * Math.PI) / 180);
  }
  return at;
}

/** Median of each coordinate. */
export function middleOf(points: readonly (Point | null)[]): Point | null {
  const known = points.filter((point) => point !== null);
  return known.length === 0 ? null : [medianOf(known.map(([x]) => x)), medianOf(known.map(([, y]) => y))];
}

function distances(points: readonly (Point | null)[]): (number | null)[] {
  const middle = middleOf(points);
  return points.map((point) =>
    point && middle ? Math.hypot(point[0] - middle[0], point[1] - middle[1]) : null,
  );
}

/** Direction of a point, 0…360. */
export const degrees = ([x, y]: Point): number => ((Math.atan2(y, x) * 180) / Math.PI + 360) % 360;

/** Angle between two hues, 0…180. */
function turn(a: number, b: number): number {
  const d = Math.abs(a - b) % 360;
  return Math.min(d, 360 - d);
}

const measuresOf = ({ values }: LineWork): MoodMeasures =>
  Object.fromEntries(
    (Object.keys(MOOD_AXES) as MoodAxis[]).map((axis) => [axis, values[`mood.${axis}`] ?? null]),
  ) as MoodMeasures;

const held = (values: readonly (number | null)[]): number[] => values.filter((value) => value !== null);

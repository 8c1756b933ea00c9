import { ciede2000 } from '../colour/ciede2000.ts';
import { linearToCielab } from '../colour/cielab.ts';
import { type Plane, planeOf, readAt, stretch } from '../numbers/plane.ts';
import { laplacianPyramid } from '../numbers/pyramid.ts';
import { lightnessPlane } from '../views/lightnessPlane.ts';
import { makeWholeView, reduceView } from '../views/resample.ts';
import type { View, Views } from '../views/view.ts';
import { type Pose, toLater } from './pose.ts';
import { reworkedDetail } from './reworked.ts';

/** Smallest difference that shows from a distance, in CIEDE2000: our default, the usual "just noticeable" of print. */
export const VISIBLE = 1;
const LONG_SIDE = 900;

/** What changed between two versions, over what both show. */
export interface Comparison {
  /** Mean CIEDE2000 of the whole view: how much the picture changed for someone who stands back. */
  readonly impact: number;
  readonly impactP95: number;
  /** Share of the whole view that changed visibly. */
  readonly changedShare: number;
  /** Share of the fine detail (two finest octaves) that was drawn anew, 0…1: see `reworkedDetail`. */
  readonly effort: number;
  /** Share of the new fine detail that lies where the whole view hardly changed. */
  readonly effortWithoutImpact: number;
  /** Mean |Δ| of L* per octave, the finest first. */
  readonly octaves: readonly number[];
  /** Share of the earlier picture that both show. */
  readonly overlap: number;
  /** CIEDE2000 of the whole view, place by place, on the earlier picture. */
  readonly impactMap: Plane;
  /** What was drawn anew in the two finest octaves, in L*, on the earlier picture. */
  readonly effortMap: Plane;
}

/** Compares a later version with an earlier one. */
export function compareVersions(earlier: Views, later: Views, pose: Pose): Comparison {
  const a = reduceView(earlier.close, LONG_SIDE);
  const b = laidOn(reduceView(later.close, likeLongSide(pose, a, later.close)), pose, a);
  const levelsA = laplacianPyramid(lightnessPlane(a), 5);
  const levelsB = laplacianPyramid(lightnessPlane(b.view), 5);
  const octaves = levelsA
    .slice(0, -1)
    .map((level, k) => meanOver(level, b.shown, (p) => Math.abs(level.data[p] - levelsB[k].data[p])));

  const [wholeA, wholeB] = isSame(pose)
    ? [earlier.whole, laidOn(later.whole, pose, earlier.whole).view]
    : wholesOf(a, b);
  const seen = stretch(b.shown, wholeA.width, wholeA.height);
  const impactMap = planeOf(wholeA.width, wholeA.height, (p) =>
    seen.data[p] >= 0.5 ? ciede2000(labAt(wholeA, p), labAt(wholeB, p)) : 0,
  );
  const sorted = Float32Array.from(impactMap.data.filter((_, p) => seen.data[p] >= 0.5)).sort();

  const fine = levelsA.slice(0, Math.min(2, levelsA.length - 1));
  const whole = (level: Plane): Plane => stretch(level, a.width, a.height);
  const reworked = fine.map((level, k) => whole(reworkedDetail(level, levelsB[k])));
  const fineA = fine.map(whole);
  const fineB = fine.map((_, k) => whole(levelsB[k]));
  const effortMap = planeOf(a.width, a.height, (p) =>
    b.shown.data[p] > 0 ? reworked.reduce((sum, level) => sum + level.data[p], 0) : 0,
  );
  const far = stretch(impactMap, a.width, a.height);
  let changed = 0;
  let unseen = 0;
  let drawn = 0;
  for (let p = 0; p < effortMap.data.length; p++) {
    if (b.shown.data[p] === 0) continue;
    changed += effortMap.data[p];
    if (far.data[p] < VISIBLE) unseen += effortMap.data[p];
    for (let k = 0; k < fineA.length; k++)
      drawn += Math.max(Math.abs(fineA[k].data[p]), Math.abs(fineB[k].data[p]));
  }
  const n = sorted.length;
  return {
    impact: n > 0 ? sorted.reduce((s, v) => s + v, 0) / n : 0,
    impactP95: n > 0 ? sorted[Math.min(n - 1, Math.floor(0.95 * n))] : 0,
    changedShare: n > 0 ? sorted.filter((v) => v >= VISIBLE).length / n : 0,
    // Where signs differ a change is larger than either stroke: held at all of it.
    effort: drawn > 0 ? Math.min(1, changed / drawn) : 0,
    effortWithoutImpact: changed > 0 ? unseen / changed : 0,
    octaves,
    overlap: n / impactMap.data.length,
    impactMap,
    effortMap,
  };
}

function isSame({ mirrored, turns, x, y, width, height }: Pose): boolean {
  return !mirrored && turns === 0 && x === 0 && y === 0 && width === 1 && height === 1;
}

/** A view laid on the grid of another one, and where it shows anything. */
interface Laid {
  readonly view: View;
  readonly shown: Plane;
}

/**
 * The later view as it lies on the grid of the earlier one. Where it shows nothing the earlier one stands, so that
 * its border is no stroke.
 */
function laidOn(view: View, pose: Pose, on: View): Laid {
  const { width, height } = on;
  const rgb = Float32Array.from(on.rgb);
  const shown = planeOf(width, height, () => 0);
  const channels = [0, 1, 2].map((c) => planeOf(view.width, view.height, (p) => view.rgb[3 * p + c]));
  for (let p = 0; p < width * height; p++) {
    const [u, v] = toLater(pose, ((p % width) + 0.5) / width, (Math.floor(p / width) + 0.5) / height);
    if (u < 0 || v < 0 || u > 1 || v > 1) continue;
    shown.data[p] = 1;
    for (let c = 0; c < 3; c++)
      rgb[3 * p + c] = readAt(channels[c], u * view.width - 0.5, v * view.height - 0.5);
  }
  return { view: { ...on, rgb, alpha: null }, shown };
}

/** Long side of the later view at which its strokes are as large as on the grid of the earlier one. */
function likeLongSide(pose: Pose, { width }: View, later: View): number {
  const across = pose.turns % 2 === 1 ? later.height : later.width;
  return Math.max(8, Math.round((pose.width * width * Math.max(later.width, later.height)) / across));
}

/** Both pictures stepped back from, over what both show only: a crop's own whole view would be blurred less. */
function wholesOf(a: View, { view, shown }: Laid): [View, View] {
  const alpha = shown.data;
  return [makeWholeView({ ...a, alpha }), makeWholeView({ ...view, alpha })];
}

function labAt(view: View, p: number): [number, number, number] {
  return linearToCielab([view.rgb[3 * p], view.rgb[3 * p + 1], view.rgb[3 * p + 2]]);
}

function meanOver(level: Plane, shown: Plane, of: (p: number) => number): number {
  const mask = stretch(shown, level.width, level.height);
  let sum = 0;
  let n = 0;
  for (let p = 0; p < level.data.length; p++) {
    if (mask.data[p] < 0.5) continue;
    sum += of(p);
    n++;
  }
  return n > 0 ? sum / n : 0;
}

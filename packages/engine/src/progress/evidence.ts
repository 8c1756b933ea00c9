import { type Plane, planeOf, stretch } from '../numbers/plane.ts';
import { laplacianPyramid } from '../numbers/pyramid.ts';
import { lightnessPlane } from '../views/lightnessPlane.ts';
import { reduceView } from '../views/resample.ts';
import type { View } from '../views/view.ts';
import { correlate } from './correlate.ts';
import type { Pose } from './pose.ts';

/**
 * Bands of lightness in which two pictures are asked whether they agree: the long side of the copy, and how many of
 * its finest octaves count. Strokes, shapes, masses.
 */
const BANDS = [
  { side: 400, octaves: 2 },
  { side: 200, octaves: 3 },
  { side: 100, octaves: 3 },
] as const;

/** How far, and how often to each side, the pose is displaced for comparison: shares of the earlier picture. */
const APART = 0.05;
const TIMES = 4;

/** Standard deviations above chance from which a pose is believed: our default, see docs/progress.md for figures. */
const BELIEVED = 7;

/**
 * Agreement of strokes that needs no deviations: a picture of even bands agrees with itself displaced as well, so that
 * chance is high there. Unlike pictures reach 0.5. Our default.
 */
const STROKE_FOR_STROKE = 0.6;

/**
 * Whether a pose is more than chance: the agreement of detail at the pose is held against its own null distribution,
 * the agreement of the same two pictures displaced. Skies and grounds of different paintings are alike wherever they
 * are laid; what two versions of one work share fits in one place only.
 */
export function standsOut(earlier: View, later: View, pose: Pose): boolean {
  return BANDS.some(({ side, octaves }) => aboveChance(earlier, later, pose, side, octaves) > BELIEVED);
}

/** Standard deviations by which the agreement at the pose exceeds that of displaced poses; 0 where it can't be told. */
function aboveChance(earlier: View, later: View, pose: Pose, side: number, octaves: number): number {
  const size = Math.min(side, Math.max(earlier.width, earlier.height));
  const a = finest(reduceView(earlier, size), octaves);
  const across = pose.turns % 2 === 1 ? later.height : later.width;
  const share = (size / Math.max(earlier.width, earlier.height)) * pose.width;
  const long = (Math.max(later.width, later.height) / across) * share * earlier.width;
  const b = finest(reduceView(later, Math.max(8, Math.round(long))), octaves);
  const every = side > 200 ? 2 : 1;
  const chance: number[] = [];
  for (let j = -TIMES; j <= TIMES; j++)
    for (let i = -TIMES; i <= TIMES; i++) {
      if (i === 0 && j === 0) continue;
      const value = correlate(a, b, { ...pose, x: pose.x + i * APART, y: pose.y + j * APART }, every);
      if (!Number.isNaN(value)) chance.push(value);
    }
  if (chance.length < 2 * TIMES) return 0;
  const mean = chance.reduce((sum, value) => sum + value, 0) / chance.length;
  const spread = Math.sqrt(chance.reduce((sum, value) => sum + (value - mean) ** 2, 0) / chance.length);
  const agreement = correlate(a, b, pose, every);
  if (side === BANDS[0].side && agreement > Math.max(STROKE_FOR_STROKE, Math.max(...chance) + 0.1))
    return Number.POSITIVE_INFINITY;
  const above = agreement - mean;
  return spread > 1e-6 && above > LEAST ? above / spread : 0;
}

/** Agreement above chance below this is no agreement, however even chance is. */
const LEAST = 0.03;

/** The finest octaves of lightness. */
export function finest(view: View, octaves: number): Plane {
  const light = lightnessPlane(view);
  const soft = laplacianPyramid(light, octaves).at(-1)!;
  const wide = stretch(soft, light.width, light.height);
  return planeOf(light.width, light.height, (p) => light.data[p] - wide.data[p]);
}

import { daylight, lightOf } from '../../colour/daylight.ts';
import { linearToOklab, oklabToOklch } from '../../colour/oklab.ts';
import { fullChange, type Ratio } from './curve.ts';
import { fromLogColour, logColour } from './logColour.ts';
import type { Shift } from './types.ts';

/** Log-chromaticity moved by 100 mired along the daylight locus at D65: the difference over ±10 mired. */
export const PER_100_MIRED: Shift = (() => {
  const d65 = 1e6 / 6504;
  const at = (mired: number) => logColour(...lightOf(daylight(1e6 / mired)));
  const warm = at(d65 + 10);
  const cool = at(d65 - 10);
  return { x: 5 * (warm.x - cool.x), y: 5 * (warm.y - cool.y) };
})();

/** A shift farther than this from the locus' direction is the shift of a coloured light (tangent of 20°). Our default. */
const NEAR = Math.tan((20 * Math.PI) / 180);
/** Shifts shorter than this across the locus count as near it whatever their direction. Our default. */
const TINY = 0.04;

/**
 * Size of a shift in mired: its projection on the locus' tangent at D65. Positive: the lit side is warmer.
 * Null for a shift that leaves the locus (coloured light): it has no colour temperature.
 */
export function miredOf(shift: Shift): number | null {
  const length = Math.hypot(PER_100_MIRED.x, PER_100_MIRED.y);
  const along = (shift.x * PER_100_MIRED.x + shift.y * PER_100_MIRED.y) / length;
  const across = Math.abs(shift.x * PER_100_MIRED.y - shift.y * PER_100_MIRED.x) / length;
  if (across > TINY && across > NEAR * Math.abs(along)) return null;
  return (100 * along) / length;
}

/** OKLCh hue, degrees, of a mid grey tinted by the full change of light: the lit side of a surface whose shade looks grey. */
export function tintHue(q: Ratio): number {
  const { x, y } = fullChange(q);
  return oklabToOklch(linearToOklab(fromLogColour({ x, y, l: Math.log(0.3) })))[2];
}

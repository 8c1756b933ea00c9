import { hueName } from '../../colour/words.ts';
import type { Shift } from './types.ts';

/** Shifts shorter than this are hardly a change of colour. Our default. */
const FAINT = 0.15;

/** "warmer by about 180 mired", "cooler by …", "turned towards green": how the lit side differs from the shade. */
export function shiftInWords(light: { shift: Shift; mired: number | null; hue: number | null }): string {
  const { shift, mired, hue } = light;
  if (Math.hypot(shift.x, shift.y) < FAINT) return 'hardly another colour';
  if (mired !== null)
    return `${mired > 0 ? 'warmer' : 'cooler'} by about ${10 * Math.round(Math.abs(mired) / 10)} mired`;
  return hue === null ? 'of another colour' : `turned towards ${hueName(hue)}`;
}

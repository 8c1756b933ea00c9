import { hueName } from '../../colour/words.ts';
import type { Shift } from './types.ts';

/** Shifts shorter than this are hardly a change of colour. Our default. */
const FAINT = 0.15;

/** How the lit side differs from the shade, after "lit sides are …". */
export function shiftInWords(light: { shift: Shift; mired: number | null; hue: number | null }): string {
  const { shift, mired, hue } = light;
  if (Math.hypot(shift.x, shift.y) < FAINT) return 'hardly of another colour than their shade';
  if (mired !== null) {
    const amount = 10 * Math.round(Math.abs(mired) / 10);
    return `${mired > 0 ? 'warmer' : 'cooler'} than their shade by about ${amount} mired`;
  }
  return hue === null
    ? 'of another colour than their shade'
    : `turned towards ${hueName(hue)} from their shade`;
}

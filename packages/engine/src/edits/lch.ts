import { linearInto, oklabInto } from '../colour/oklab.ts';
import type { Kernel } from './step.ts';

/**
 * A kernel written on OKLab: `change` gets a scratch of three numbers (L, a, b) and alters it.
 *
 * `change` returns false to leave the colour exactly as it is.
 */
export function onOklab(change: (lab: Float64Array, amount: number) => boolean): Kernel {
  const lab = new Float64Array(3);
  return (rgb, at, amount) => {
    if (amount === 0) return;
    oklabInto(lab, 0, rgb[at], rgb[at + 1], rgb[at + 2]);
    if (change(lab, amount)) linearInto(rgb, at, lab[0], lab[1], lab[2]);
  };
}

/** Hue has no meaning below the first chroma and full meaning from the second (as in the hue reading). */
export function hueMeaning(chroma: number): number {
  return Math.min(1, Math.max(0, (chroma - 0.02) / 0.02));
}

/** Distance between two hues in degrees, 0…180. */
export function hueDistance(a: number, b: number): number {
  return Math.abs(((((a - b) % 360) + 540) % 360) - 180);
}

/** 0 inside an arc, rising to 1 over `fade` degrees outside it. */
export function outside(
  hue: number,
  arc: { readonly hue: number; readonly width: number },
  fade: number,
): number {
  return Math.min(1, Math.max(0, (hueDistance(hue, arc.hue) - arc.width / 2) / fade));
}

export const hueOf = (a: number, b: number): number => ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;

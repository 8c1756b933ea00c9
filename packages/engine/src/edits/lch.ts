import type { Kernel } from './step.ts';

/** A kernel on OKLab: L, a, b at `at`, `at + 1`, `at + 2`. */
export function onOklab(change: Kernel['change']): Kernel {
  return { on: 'oklab', change: (lab, at, amount) => amount !== 0 && change(lab, at, amount) };
}

/** A kernel on linear sRGB light. */
export function onLight(change: Kernel['change']): Kernel {
  return { on: 'light', change: (rgb, at, amount) => amount !== 0 && change(rgb, at, amount) };
}

/** Hue has no meaning below the first chroma and full meaning from the second (as in the hue reading). */
export function hueMeaning(chroma: number): number {
  return Math.min(1, Math.max(0, (chroma - 0.02) / 0.02));
}

/** OKLCh chroma of OKLab at `at` (a square root is several times faster than the careful `Math.hypot`). */
export function chromaOf(lab: Float64Array, at: number): number {
  return Math.sqrt(lab[at + 1] * lab[at + 1] + lab[at + 2] * lab[at + 2]);
}

/** The way from hue `b` to hue `a` in degrees, −180…180. Rounding is several times faster than a remainder. */
export function turnBetween(a: number, b: number): number {
  const turn = a - b;
  return turn - 360 * Math.round(turn / 360);
}

/** Distance between two hues in degrees, 0…180. */
export function hueDistance(a: number, b: number): number {
  return Math.abs(turnBetween(a, b));
}

/** 0 inside an arc, rising to 1 over `fade` degrees outside it. */
export function outside(
  hue: number,
  arc: { readonly hue: number; readonly width: number },
  fade: number,
): number {
  return Math.min(1, Math.max(0, (hueDistance(hue, arc.hue) - arc.width / 2) / fade));
}

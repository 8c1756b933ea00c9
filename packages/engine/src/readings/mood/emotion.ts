import { CUBE } from './munsell.ts';

const RAD = Math.PI / 180;

// Colour emotion of single colours in CIELAB: Ou, Luo, Woodcock & Wright 2004, "A study of colour emotion and colour
// preference, part I", Color Research and Application 29/3.

/** Warm (positive) against cool (negative): −0.5 + 0.02 C*^1.07 cos(h − 50°), hue in degrees. */
export function warmCool(chroma: number, hue: number): number {
  return warmCoolOf(chroma * Math.cos(hue * RAD), chroma * Math.sin(hue * RAD), chroma);
}

/** The same of CIELAB a* and b*: C* cos(h − 50°) is their projection on the direction of 50°. */
export function warmCoolOf(a: number, b: number, chroma = Math.hypot(a, b)): number {
  return -0.5 + 0.02 * (chroma > 0 ? chroma ** 0.07 : 0) * (a * COS50 + b * SIN50);
}
const COS50 = Math.cos(50 * RAD);
const SIN50 = Math.sin(50 * RAD);

/** Heavy (positive) against light (negative): −2.1 + 0.05 (100 − L*). */
export function heavyLight(L: number): number {
  return -2.1 + 0.05 * (100 - L);
}

/**
 * Active (positive) against passive (negative): −1.1 + 0.03 √(C*² + (L* − 50)²).
 *
 * Copies of the paper circulate with (L* − 50)/1.5 in the root; this is the one without.
 */
export function activePassive(L: number, chroma: number): number {
  return -1.1 + 0.03 * Math.sqrt(chroma * chroma + (L - 50) * (L - 50));
}

/** Pleasure, arousal and dominance of a colour, in standard deviations of the sRGB cube. */
export interface Pad {
  readonly pleasure: number;
  readonly arousal: number;
  readonly dominance: number;
}

/**
 * Valdez & Mehrabian 1994, "Effects of color on emotions", J. Experimental Psychology: General 123/4: pleasure =
 * 0.69 V + 0.22 S, arousal = −0.31 V + 0.60 S, dominance = −0.76 V + 0.32 S with standardised Munsell value V and
 * chroma S. The paper names no population to standardise with; we take the sRGB cube. Only differences mean anything.
 *
 * @param value Munsell value, 0…10
 * @param chroma Munsell chroma
 */
export function pad(value: number, chroma: number): Pad {
  const v = (value - CUBE.value[0]) / CUBE.value[1];
  const s = (chroma - CUBE.chroma[0]) / CUBE.chroma[1];
  return {
    pleasure: 0.69 * v + 0.22 * s,
    arousal: -0.31 * v + 0.6 * s,
    dominance: -0.76 * v + 0.32 * s,
  };
}

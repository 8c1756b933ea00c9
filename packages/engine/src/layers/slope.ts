/** How a layer meets what lies below, where that is a straight line in it. */
export const NORMAL = 1;
const MULTIPLY = 2;
const SCREEN = 3;
const EXCLUSION = 4;
const HARD_LIGHT = 5;

/** Numbers of these modes; a mode that is not among them is no line. */
export const LINE_KINDS: Readonly<Record<string, number>> = {
  normal: NORMAL,
  multiply: MULTIPLY,
  screen: SCREEN,
  exclusion: EXCLUSION,
  'hard-light': HARD_LIGHT,
};

/**
 * Writes the slopes of a channel to `out`: with colours times alpha what comes out is a·c + d·αb and what is added.
 *
 * Source: W3C Compositing and Blending Level 1, sections 5, 8.1 and 9.1, solved for the backdrop.
 *
 * @param kind a number of `LINE_KINDS`
 * @param s code value of the layer, 0…1
 * @param as its alpha times its opacity
 */
export function slope(kind: number, out: Float64Array, at: number, s: number, as: number): void {
  let a = 1 - as;
  let d = 0;
  if (kind === MULTIPLY) {
    a += as * s;
    d = -as * s;
  } else if (kind === SCREEN) a = 1 - as * s;
  else if (kind === EXCLUSION) a = 1 - 2 * as * s;
  else if (kind === HARD_LIGHT) {
    const light = 2 * s - 1;
    a = light <= 0 ? 1 - as + 2 * as * s : 1 - as * light;
    d = light <= 0 ? -as * s : as * light - as * s;
  }
  out[at] = a;
  out[at + 1] = d;
}

import { type Meeting, OPERATORS } from './meet.ts';

/**
 * Most meetings are straight lines in the backdrop: with colours times alpha, what comes out is a·c + d·αb + e in each
 * channel and a·αb + e in alpha. Such lines can be joined: any number of layers over a backdrop are one.
 *
 * Eleven numbers: a, d, e of red, of green and of blue, then a and e of alpha.
 */
export const LINE = 11;

/** Writes the line of a source (straight codes and alpha 0…1 at its place) to `out[at…]`. */
export type Liner = (out: Float64Array, at: number, r: number, g: number, b: number, alpha: number) => void;

/**
 * The lines of a meeting; null for modes that are none.
 *
 * Source: W3C Compositing and Blending Level 1, sections 5, 8.1 and 9.1, solved for the backdrop.
 */
export function linerOf({ blend, operator, opacity }: Meeting): Liner | null {
  const [a0, a1, b0, b1] = OPERATORS[operator];
  if (blend === 'normal') {
    // Its alpha is held at 1.
    if (operator === 'lighter') return null;
    return (out, at, r, g, b, alpha) => {
      const as = alpha * opacity;
      const fb = b0 + b1 * as;
      line(out, at, fb, a1 * as * r, a0 * as * r);
      line(out, at + 3, fb, a1 * as * g, a0 * as * g);
      line(out, at + 6, fb, a1 * as * b, a0 * as * b);
      out[at + 9] = fb + a1 * as;
      out[at + 10] = a0 * as;
    };
  }
  const channel = operator === 'source-over' ? CHANNELS[blend] : undefined;
  if (!channel) return null;
  return (out, at, r, g, b, alpha) => {
    const as = alpha * opacity;
    channel(out, at, r, as);
    channel(out, at + 3, g, as);
    channel(out, at + 6, b, as);
    out[at + 9] = 1 - as;
    out[at + 10] = as;
  };
}

type Channel = (out: Float64Array, at: number, s: number, as: number) => void;

const CHANNELS: Readonly<Record<string, Channel>> = {
  multiply: (out, at, s, as) => line(out, at, 1 - as + as * s, -as * s, as * s),
  screen: (out, at, s, as) => line(out, at, 1 - as * s, 0, as * s),
  exclusion: (out, at, s, as) => line(out, at, 1 - 2 * as * s, 0, as * s),
  'hard-light': (out, at, s, as) => {
    const light = 2 * s - 1;
    if (light <= 0) line(out, at, 1 - as + 2 * as * s, -as * s, as * s);
    else line(out, at, 1 - as * light, as * light - as * s, as * s);
  },
};

function line(out: Float64Array, at: number, a: number, d: number, e: number): void {
  out[at] = a;
  out[at + 1] = d;
  out[at + 2] = e;
}

/** The line that does nothing. */
export function noLine(out: Float64Array, at: number): void {
  for (let i = 0; i < LINE; i++) out[at + i] = 0;
  out[at] = 1;
  out[at + 3] = 1;
  out[at + 6] = 1;
  out[at + 9] = 1;
}

/** First one line, then another, as one in `out[at…]`. */
export function joinLines(
  out: Float64Array,
  at: number,
  first: Float64Array,
  i: number,
  then: Float64Array,
  j: number,
): void {
  const a = first[i + 9];
  const e = first[i + 10];
  for (let c = 0; c < 9; c += 3) {
    const a2 = then[j + c];
    const d2 = then[j + c + 1];
    const d1 = first[i + c + 1];
    const e1 = first[i + c + 2];
    out[at + c] = a2 * first[i + c];
    out[at + c + 1] = a2 * d1 + d2 * a;
    out[at + c + 2] = a2 * e1 + d2 * e + then[j + c + 2];
  }
  out[at + 9] = then[j + 9] * a;
  out[at + 10] = then[j + 9] * e + then[j + 10];
}

/** Applies a line to a pixel (colour times alpha, and alpha). */
export function follow(lines: Float64Array, i: number, pixel: Float64Array, at: number): void {
  const ab = pixel[at + 3];
  pixel[at] = lines[i] * pixel[at] + lines[i + 1] * ab + lines[i + 2];
  pixel[at + 1] = lines[i + 3] * pixel[at + 1] + lines[i + 4] * ab + lines[i + 5];
  pixel[at + 2] = lines[i + 6] * pixel[at + 2] + lines[i + 7] * ab + lines[i + 8];
  pixel[at + 3] = lines[i + 9] * ab + lines[i + 10];
}

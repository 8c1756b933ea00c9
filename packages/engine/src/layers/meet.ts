import { type BlendMode, NON_SEPARABLE, SEPARABLE } from './blend.ts';

/**
 * Porter–Duff operators as factors of the source (Fa) and the backdrop (Fb). Every factor is linear in the other
 * side's alpha: Fa = a0 + a1·αb and Fb = b0 + b1·αs, written [a0, a1, b0, b1].
 *
 * Source: W3C Compositing and Blending Level 1, section 8.1 (after Porter and Duff 1984).
 */
export const OPERATORS = {
  clear: [0, 0, 0, 0],
  copy: [1, 0, 0, 0],
  destination: [0, 0, 1, 0],
  'source-over': [1, 0, 1, -1],
  'destination-over': [1, -1, 1, 0],
  'source-in': [0, 1, 0, 0],
  'destination-in': [0, 0, 0, 1],
  'source-out': [1, -1, 0, 0],
  'destination-out': [0, 0, 1, -1],
  'source-atop': [0, 1, 1, -1],
  'destination-atop': [1, -1, 0, 1],
  xor: [1, -1, 1, -1],
  lighter: [1, 0, 1, 0],
} as const satisfies Record<string, readonly [number, number, number, number]>;

export type Operator = keyof typeof OPERATORS;

/** How a layer or group meets what lies below it. */
export interface Meeting {
  readonly blend: BlendMode;
  readonly operator: Operator;
  /** 0…1, times the alpha of its own pixels. */
  readonly opacity: number;
}

/** Puts a source pixel (straight code values and alpha 0…1) onto the pixel that stands at `at` of `state`. */
export type Meet = (state: Float64Array, at: number, r: number, g: number, b: number, a: number) => void;

/** Whether a source that is transparent at a place leaves the backdrop there as it is. */
export function isLocal(operator: Operator): boolean {
  const [, , b0] = OPERATORS[operator];
  return b0 === 1;
}

/** The arithmetic of one meeting, ready for many pixels. Not for several threads at once: it has own room. */
export function meeting({ blend, operator, opacity }: Meeting): Meet {
  const [a0, a1, b0, b1] = OPERATORS[operator];
  if (blend === 'normal' && operator === 'source-over')
    return (s, at, r, g, b, a) => over(s, at, r, g, b, a * opacity);
  const each = blend in SEPARABLE ? SEPARABLE[blend as keyof typeof SEPARABLE] : null;
  const joint = blend in NON_SEPARABLE ? NON_SEPARABLE[blend as keyof typeof NON_SEPARABLE] : null;
  const source = new Float64Array(3);
  const below = new Float64Array(3);
  const mixed = new Float64Array(3);
  return (state, at, r, g, b, alpha) => {
    const as = alpha * opacity;
    if (as === 0 && b0 === 1) return;
    const ab = state[at + 3];
    const fa = (a0 + a1 * ab) * as;
    const fb = (b0 + b1 * as) * ab;
    const ao = Math.min(1, fa + fb);
    if (ao <= 0) {
      state.fill(0, at, at + 4);
      return;
    }
    source[0] = r;
    source[1] = g;
    source[2] = b;
    for (let c = 0; c < 3; c++) below[c] = state[at + c];
    if (joint) joint(below, source, mixed);
    else if (each) for (let c = 0; c < 3; c++) mixed[c] = each(below[c], source[c]);
    for (let c = 0; c < 3; c++) {
      const seen = (1 - ab) * source[c] + ab * mixed[c];
      state[at + c] = Math.min(1, Math.max(0, (fa * seen + fb * below[c]) / ao));
    }
    state[at + 3] = ao;
  };
}

/** Normal source over: most layers of most pictures. */
function over(state: Float64Array, at: number, r: number, g: number, b: number, as: number): void {
  if (as === 0) return;
  const fb = state[at + 3] * (1 - as);
  const ao = as + fb;
  state[at] = (as * r + fb * state[at]) / ao;
  state[at + 1] = (as * g + fb * state[at + 1]) / ao;
  state[at + 2] = (as * b + fb * state[at + 2]) / ao;
  state[at + 3] = ao;
}

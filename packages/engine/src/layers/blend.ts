/**
 * Blend functions B(Cb, Cs) on code values 0…1: Cb is the backdrop's colour, Cs the source's.
 *
 * Source: W3C Compositing and Blending Level 1, section 9.1 (separable) and 9.2 (non-separable).
 */
export const SEPARABLE = {
  normal: (_: number, cs: number) => cs,
  multiply: (cb: number, cs: number) => cb * cs,
  screen: (cb: number, cs: number) => cb + cs - cb * cs,
  overlay: (cb: number, cs: number) => hardLight(cs, cb),
  darken: (cb: number, cs: number) => Math.min(cb, cs),
  lighten: (cb: number, cs: number) => Math.max(cb, cs),
  'color-dodge': (cb: number, cs: number) => (cb === 0 ? 0 : cs >= 1 ? 1 : Math.min(1, cb / (1 - cs))),
  'color-burn': (cb: number, cs: number) => (cb >= 1 ? 1 : cs <= 0 ? 0 : 1 - Math.min(1, (1 - cb) / cs)),
  'hard-light': hardLight,
  'soft-light': softLight,
  difference: (cb: number, cs: number) => Math.abs(cb - cs),
  exclusion: (cb: number, cs: number) => cb + cs - 2 * cb * cs,
} as const;

function hardLight(cb: number, cs: number): number {
  if (cs <= 0.5) return cb * 2 * cs;
  const light = 2 * cs - 1;
  return cb + light - cb * light;
}

function softLight(cb: number, cs: number): number {
  if (cs <= 0.5) return cb - (1 - 2 * cs) * cb * (1 - cb);
  const d = cb <= 0.25 ? ((16 * cb - 12) * cb + 4) * cb : Math.sqrt(cb);
  return cb + (2 * cs - 1) * (d - cb);
}

/** Puts the blended colour of a backdrop `b` and a source `s` into `out`. */
type Joint = (b: Colour, s: Colour, out: Float64Array) => void;
/** Three code values. */
type Colour = ArrayLike<number>;

export const NON_SEPARABLE = {
  hue: (b, s, out) => {
    setSaturation(s, saturation(b), out);
    setLuminosity(out, luminosity(b), out);
  },
  saturation: (b, s, out) => {
    setSaturation(b, saturation(s), out);
    setLuminosity(out, luminosity(b), out);
  },
  color: (b, s, out) => setLuminosity(s, luminosity(b), out),
  luminosity: (b, s, out) => setLuminosity(b, luminosity(s), out),
} as const satisfies Record<string, Joint>;

export type BlendMode = keyof typeof SEPARABLE | keyof typeof NON_SEPARABLE;

/** All blend modes, in the order of the standard. */
export const BLEND_MODES = [...Object.keys(SEPARABLE), ...Object.keys(NON_SEPARABLE)] as readonly BlendMode[];

function luminosity(c: Colour): number {
  return 0.3 * c[0] + 0.59 * c[1] + 0.11 * c[2];
}

function saturation(c: Colour): number {
  return Math.max(c[0], c[1], c[2]) - Math.min(c[0], c[1], c[2]);
}

function setSaturation(c: Colour, to: number, out: Float64Array): void {
  const low = Math.min(c[0], c[1], c[2]);
  const range = saturation(c);
  for (let i = 0; i < 3; i++) out[i] = range === 0 ? 0 : ((c[i] - low) * to) / range;
}

function setLuminosity(c: Colour, to: number, out: Float64Array): void {
  const shift = to - luminosity(c);
  for (let i = 0; i < 3; i++) out[i] = c[i] + shift;
  // ClipColor: towards the grey of the same luminosity until the colour is one.
  const l = luminosity(out);
  const low = Math.min(out[0], out[1], out[2]);
  const high = Math.max(out[0], out[1], out[2]);
  if (low < 0) for (let i = 0; i < 3; i++) out[i] = l + ((out[i] - l) * l) / (l - low);
  if (high > 1) for (let i = 0; i < 3; i++) out[i] = l + ((out[i] - l) * (1 - l)) / (high - l);
}

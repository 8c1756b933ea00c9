import { invert, type Matrix, multiply, type Triple, transform } from './matrix.ts';
import { SRGB_TO_XYZ } from './rgbSpaces.ts';

// Ottosson 2020, "A perceptual color space for image processing"; digits as recomputed in CSS Color 4, section 17.
const XYZ_TO_LMS: Matrix = [
  0.819022437996703, 0.3619062600528904, -0.1288737815209879, 0.0329836539323885, 0.9292868615863434,
  0.0361446663506424, 0.0481771893596242, 0.2642395317527308, 0.6335478284694309,
];
const LMS_TO_LAB: Matrix = [
  0.210454268309314, 0.7936177747023054, -0.0040720430116193, 1.9779985324311684, -2.42859224204858,
  0.450593709617411, 0.0259040424655478, 0.7827717124575296, -0.8086757549230774,
];
const [a0, a1, a2, a3, a4, a5, a6, a7, a8] = multiply(XYZ_TO_LMS, SRGB_TO_XYZ);
const [b0, b1, b2, b3, b4, b5, b6, b7, b8] = LMS_TO_LAB;
const [c0, c1, c2, c3, c4, c5, c6, c7, c8] = invert(LMS_TO_LAB);
const [d0, d1, d2, d3, d4, d5, d6, d7, d8] = invert(multiply(XYZ_TO_LMS, SRGB_TO_XYZ));

/** OKLab (L 0…1, a, b) of an XYZ colour with D65 white at Y = 1. */
export function xyzToOklab(xyz: Triple): [number, number, number] {
  const [l, m, s] = transform(XYZ_TO_LMS, xyz);
  return transform(LMS_TO_LAB, [Math.cbrt(l), Math.cbrt(m), Math.cbrt(s)]);
}

/** OKLab of linear sRGB light, written to `out[at…at+2]` (no allocation: for loops over many colours). */
export function oklabInto(out: { [i: number]: number }, at: number, r: number, g: number, b: number): void {
  const l = Math.cbrt(a0 * r + a1 * g + a2 * b);
  const m = Math.cbrt(a3 * r + a4 * g + a5 * b);
  const s = Math.cbrt(a6 * r + a7 * g + a8 * b);
  out[at] = b0 * l + b1 * m + b2 * s;
  out[at + 1] = b3 * l + b4 * m + b5 * s;
  out[at + 2] = b6 * l + b7 * m + b8 * s;
}

/** Linear sRGB light (unclipped) of OKLab, written to `out[at…at+2]`. */
export function linearInto(out: { [i: number]: number }, at: number, L: number, A: number, B: number): void {
  const l = c0 * L + c1 * A + c2 * B;
  const m = c3 * L + c4 * A + c5 * B;
  const s = c6 * L + c7 * A + c8 * B;
  const l3 = l * l * l;
  const m3 = m * m * m;
  const s3 = s * s * s;
  out[at] = d0 * l3 + d1 * m3 + d2 * s3;
  out[at + 1] = d3 * l3 + d4 * m3 + d5 * s3;
  out[at + 2] = d6 * l3 + d7 * m3 + d8 * s3;
}

/** OKLab of linear sRGB light. */
export function linearToOklab(rgb: Triple): [number, number, number] {
  const out: [number, number, number] = [0, 0, 0];
  oklabInto(out, 0, rgb[0], rgb[1], rgb[2]);
  return out;
}

/** Linear sRGB light of OKLab, unclipped. */
export function oklabToLinear(lab: Triple): [number, number, number] {
  const out: [number, number, number] = [0, 0, 0];
  linearInto(out, 0, lab[0], lab[1], lab[2]);
  return out;
}

/** OKLCh (L, chroma, hue in degrees 0…360) of OKLab. */
export function oklabToOklch([L, a, b]: Triple): [number, number, number] {
  return [L, Math.hypot(a, b), ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360];
}

/** OKLab of OKLCh (hue in degrees). */
export function oklchToOklab([L, c, h]: Triple): [number, number, number] {
  const t = (h * Math.PI) / 180;
  return [L, c * Math.cos(t), c * Math.sin(t)];
}

/** ΔE_OK: the distance in OKLab. */
export function deltaOk(p: Triple, q: Triple): number {
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

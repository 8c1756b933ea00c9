import { luminanceOf } from '../../colour/cielab.ts';

/**
 * Munsell value (0…10) of a CIELAB lightness.
 *
 * Inverts the polynomial of ASTM D1535 (luminance factor of the renotation, relative to the perfect diffuser) by
 * Newton's method; held at 0 and 10.
 */
export function munsellValue(L: number): number {
  if (!(L > 0)) return 0;
  if (L >= 100) return 10;
  const at = STEPS * L;
  const i = Math.floor(at);
  return VALUES[i] + (at - i) * (VALUES[i + 1] - VALUES[i]);
}

function solve(L: number): number {
  const y = 100 * luminanceOf(L);
  let v = L / 10;
  for (let k = 0; k < 3; k++) {
    const f = ((((0.00081939 * v - 0.020484) * v + 0.23352) * v - 0.22533) * v + 1.1914) * v;
    const slope = (((0.00409695 * v - 0.081936) * v + 0.70056) * v - 0.45066) * v + 1.1914;
    v -= (f - y) / slope;
  }
  return Math.min(10, Math.max(0, v));
}

// Sought once for every tenth of L*; between them the curve is straight to 10⁻⁴.
const STEPS = 10;
const VALUES = Float64Array.from({ length: 100 * STEPS + 1 }, (_, i) => solve(i / STEPS));

/**
 * Munsell chroma, approximated as C*ab / 5.2.
 *
 * The factor is the least-squares one over 729 colours of the sRGB cube against the renotation data; the true one
 * runs with hue and value (off by 2.4 steps of chroma as a root mean square, see docs/readings.md).
 */
export function munsellChroma(chroma: number): number {
  return chroma / 5.2;
}

/** Mean and standard deviation of Munsell value and chroma over the sRGB cube (729 colours, the same data). */
export const CUBE = { value: [5.79, 2.2], chroma: [11.95, 6.04] } as const;

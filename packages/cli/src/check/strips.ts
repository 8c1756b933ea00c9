import { type Census, cssHex, luminance, oklabToOklch } from '@halflight/engine';

/** The picture's colours in two rows for a terminal. */
export interface Strips {
  /** Around the hue circle in equal steps from `FIRST_HUE`: how much of each, largest = 1, and its mean colour (CSS). */
  readonly hues: readonly { readonly weight: number; readonly colour: string }[];
  /** From the darkest to the lightest places in equal shares of the area: mean colour and the grey of its value (CSS). */
  readonly values: readonly { readonly colour: string; readonly grey: string }[];
}

/** Steps of either strip. */
export const STEPS = 60;

/** OKLCh hue at the left end of the hue strip: between violet and pink, where paintings rarely dwell. */
export const FIRST_HUE = 330;

// Below this chroma a hue has no meaning; between the two it fades in.
const NO_HUE = 0.02;
const FULL_HUE = 0.04;

export function makeStrips(census: Census): Strips {
  return { hues: hueStrip(census), values: valueStrip(census) };
}

function hueStrip({ count, lab, rgb, share }: Census): Strips['hues'] {
  const sums = new Float64Array(4 * STEPS);
  for (let i = 0; i < count; i++) {
    const [, chroma, hue] = oklabToOklch([lab[3 * i], lab[3 * i + 1], lab[3 * i + 2]]);
    const sure = Math.min(1, Math.max(0, (chroma - NO_HUE) / (FULL_HUE - NO_HUE)));
    const weight = share[i] * chroma * sure;
    if (weight === 0) continue;
    const at = 4 * (Math.floor((((hue - FIRST_HUE + 360) % 360) / 360) * STEPS) % STEPS);
    for (let c = 0; c < 3; c++) sums[at + c] += weight * rgb[3 * i + c];
    sums[at + 3] += weight;
  }
  let largest = 0;
  for (let s = 0; s < STEPS; s++) largest = Math.max(largest, sums[4 * s + 3]);
  return Array.from({ length: STEPS }, (_, s) => {
    const weight = sums[4 * s + 3];
    return { weight: largest > 0 ? weight / largest : 0, colour: cssHex(mean(sums, 4 * s, weight)) };
  });
}

function valueStrip({ count, rgb, share }: Census): Strips['values'] {
  const light = Float64Array.from({ length: count }, (_, i) =>
    luminance(rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]),
  );
  const order = Uint32Array.from({ length: count }, (_, i) => i).sort((a, b) => light[a] - light[b]);
  const sums = new Float64Array(4 * STEPS);
  let passed = 0;
  for (const i of order) {
    // A cell may reach over several steps of the strip.
    for (let left = share[i]; left > 1e-12; ) {
      const step = Math.min(STEPS - 1, Math.floor(passed * STEPS + 1e-9));
      const part = step === STEPS - 1 ? left : Math.min(left, (step + 1) / STEPS - passed);
      for (let c = 0; c < 3; c++) sums[4 * step + c] += part * rgb[3 * i + c];
      sums[4 * step + 3] += part;
      passed += part;
      left -= part;
    }
  }
  if (passed === 0) return [];
  return Array.from({ length: STEPS }, (_, s) => {
    const colour = mean(sums, 4 * s, sums[4 * s + 3]);
    const y = luminance(...colour);
    return { colour: cssHex(colour), grey: cssHex([y, y, y]) };
  });
}

function mean(sums: Float64Array, at: number, weight: number): [number, number, number] {
  if (weight === 0) return [0, 0, 0];
  return [sums[at] / weight, sums[at + 1] / weight, sums[at + 2] / weight];
}

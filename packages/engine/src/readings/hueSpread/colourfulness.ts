import type { Census } from '../../census/census.ts';
import { linearToSrgb } from '../../colour/transfer.ts';

/**
 * Colourfulness of Hasler & Süsstrunk 2003, "Measuring colourfulness in natural images", Proc. SPIE 5007:
 * √(σ²rg + σ²yb) + 0.3 √(μ²rg + μ²yb) with rg = R − G, yb = (R + G)/2 − B on sRGB code values 0…255.
 *
 * From the census, so that the spread within a cell (at most four code values wide) is left out. Wider colours
 * count with their code values beyond 0…255.
 */
export function colourfulness({ count, share, rgb }: Census): number {
  let rg = 0;
  let yb = 0;
  let rg2 = 0;
  let yb2 = 0;
  for (let i = 0; i < count; i++) {
    const w = share[i];
    const r = code(rgb[3 * i]);
    const g = code(rgb[3 * i + 1]);
    const b = code(rgb[3 * i + 2]);
    const p = r - g;
    const q = (r + g) / 2 - b;
    rg += w * p;
    yb += w * q;
    rg2 += w * p * p;
    yb2 += w * q * q;
  }
  const variance = Math.max(0, rg2 - rg * rg + yb2 - yb * yb);
  return Math.sqrt(variance) + 0.3 * Math.hypot(rg, yb);
}

// sRGB code values 0…255 over the root of linear light, where the curve is nearly straight: off by less than 0.001.
const STEPS = 4096;
const CODES = Float64Array.from({ length: STEPS + 2 }, (_, i) => 255 * linearToSrgb((i / STEPS) ** 2));

function code(l: number): number {
  if (!(l >= 0 && l <= 1)) return 255 * linearToSrgb(l);
  const at = STEPS * Math.sqrt(l);
  const i = Math.floor(at);
  return CODES[i] + (at - i) * (CODES[i + 1] - CODES[i]);
}

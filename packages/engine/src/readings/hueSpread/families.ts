import type { Census } from '../../census/census.ts';
import { linearToOklab, oklabToOklch } from '../../colour/oklab.ts';
import { colourName } from '../../colour/words.ts';
import { hillsOf } from './hills.ts';
import { type HueHistogram, STEPS } from './histogram.ts';

// A hill stands by itself when it rises above the valley beside it by a tenth of the highest hill and a third of
// itself, or when it stands apart: small but with a valley beside it below half its height. Our defaults.
const PROMINENT = 0.1;
const OWN_PROMINENCE = 0.2;
const APART = 0.5;
const APART_WEIGHT = 0.003;
/** A family whose middle 80 % take more degrees than this goes by two words. */
const BROAD = 45;
/** An accent is a family of at most this share of the picture … */
export const ACCENT_AREA = 0.04;
/** … whose chroma lies above that of nine tenths of the picture. */
const ACCENT_CHROMA = 0.9;

/** Neighbouring hues that the eye takes together. */
export interface HueFamily {
  /** A painter's word for it. */
  readonly name: string;
  /** Mean OKLCh hue, degrees. */
  readonly hue: number;
  /** Mean OKLCh chroma. */
  readonly chroma: number;
  /** Share of the picture's area. */
  readonly areaShare: number;
  /** Share of the picture's colour weight (area × chroma). */
  readonly weightShare: number;
  /** The arc it takes on the hue circle, degrees; `to` may be smaller than `from`. */
  readonly from: number;
  readonly to: number;
  /** Small and among the most chromatic colours of the picture. */
  readonly accent: boolean;
  /** Mean colour, linear light. */
  readonly rgb: readonly [number, number, number];
}

/** The picture's hue families, the weightiest first; none without colour. */
export function familiesOf(census: Census, histogram: HueHistogram, density: Float64Array): HueFamily[] {
  const { weight, area, light, colourWeight } = histogram;
  if (!(colourWeight > 0)) return [];
  const strong = chromaPercentile(census, ACCENT_CHROMA);
  const hills = hillsOf(density, ({ from, to, height, valley }) => {
    const rise = height - valley;
    if (rise >= PROMINENT && rise >= OWN_PROMINENCE * height) return true;
    return valley <= APART * height && sumOver(weight, from, to) >= APART_WEIGHT;
  });
  const families = hills.map(({ from, to }): HueFamily => {
    let [x, y, share, cover] = [0, 0, 0, 0];
    eachStep(from, to, (h) => {
      const angle = ((h + 0.5) * Math.PI) / 180;
      x += weight[h] * Math.cos(angle);
      y += weight[h] * Math.sin(angle);
      share += weight[h];
      cover += area[h];
    });
    const hue = ((Math.atan2(y, x) * 180) / Math.PI + 360) % 360;
    const chroma = cover > 0 ? (share * colourWeight) / cover : 0;
    const accent = cover <= ACCENT_AREA && chroma > strong;
    return {
      name: accent ? wordFor(histogram, from, to) : nameOf(histogram, from, to, share),
      hue,
      chroma,
      areaShare: cover,
      weightShare: share,
      from,
      to,
      accent,
      rgb: meanLight(light, area, from, to),
    };
  });
  return families.filter((f) => f.weightShare > 0).sort((p, q) => q.weightShare - p.weightShare);
}

/** A word for the family, or "blue to pink" when it runs through several. */
function nameOf(histogram: HueHistogram, from: number, to: number, total: number): string {
  const { weight } = histogram;
  let sum = 0;
  let start = from;
  let end = to;
  eachStep(from, to, (h) => {
    if (sum < 0.1 * total && sum + weight[h] >= 0.1 * total) start = h;
    if (sum < 0.9 * total && sum + weight[h] >= 0.9 * total) end = h;
    sum += weight[h];
  });
  const whole = wordFor(histogram, from, to);
  if ((end - start + STEPS) % STEPS < BROAD) return whole;
  const near = (h: number): string => wordFor(histogram, (h - 4 + STEPS) % STEPS, (h + 5) % STEPS);
  const [first, last] = [near(start), near(end)];
  return first === last ? whole : `${first} to ${last}`;
}

/** A word for the mean colour of an arc. */
function wordFor({ area, light }: HueHistogram, from: number, to: number): string {
  return colourName(...oklabToOklch(linearToOklab(meanLight(light, area, from, to))));
}

function meanLight(
  light: Float64Array,
  area: Float64Array,
  from: number,
  to: number,
): [number, number, number] {
  let [r, g, b, cover] = [0, 0, 0, 0];
  eachStep(from, to, (h) => {
    cover += area[h];
    r += light[3 * h];
    g += light[3 * h + 1];
    b += light[3 * h + 2];
  });
  return cover > 0 ? [r / cover, g / cover, b / cover] : [0, 0, 0];
}

function eachStep(from: number, to: number, visit: (step: number) => void): void {
  const length = (to - from + STEPS) % STEPS || STEPS;
  for (let k = 0; k < length; k++) visit((from + k) % STEPS);
}

function sumOver(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  eachStep(from, to, (h) => {
    sum += values[h];
  });
  return sum;
}

/** Chroma below which `part` of the picture lies, to a thousandth: no sorting of all colours for it. */
function chromaPercentile({ count, share, lab }: Census, part: number): number {
  const steps = new Float64Array(501);
  for (let i = 0; i < count; i++) {
    const a = lab[3 * i + 1];
    const b = lab[3 * i + 2];
    steps[Math.min(500, Math.floor(1000 * Math.sqrt(a * a + b * b)))] += share[i];
  }
  let sum = 0;
  for (let s = 0; s < steps.length; s++) {
    if (sum + steps[s] >= part) return (s + (part - sum) / steps[s]) / 1000;
    sum += steps[s];
  }
  return 0.5;
}

import type { Census } from '../../census/census.ts';
import type { HueIntent } from '../../intent/intent.ts';
import { colourfulness } from './colourfulness.ts';
import { effectiveHues, hueDensity, spanDegrees } from './density.ts';
import { familiesOf } from './families.ts';
import { type HueHistogram, hueHistogram, STEPS } from './histogram.ts';
import { type HuePlan, planOf } from './plan.ts';
import { strayHues } from './strays.ts';
import { templateOf } from './templates.ts';
import type { HueSpreadValue } from './types.ts';

/** Spread of a picture's hues (effective number, see `density.ts`), or null without any colour. */
export function hueSpreadOf(census: Census): number | null {
  const { weight, colourWeight } = hueHistogram(census);
  return colourWeight > 0 ? effectiveHues(hueDensity(weight)) : null;
}

/** All numbers of the hue spread reading, and the plan that they were held against. */
export function measureHues(
  census: Census,
  intent: HueIntent | undefined,
): { value: HueSpreadValue; plan: HuePlan } {
  const histogram = hueHistogram(census);
  const { weight, area, chromaticShare } = histogram;
  const coloured = histogram.colourWeight > 0;
  const density = hueDensity(weight);
  const families = familiesOf(census, histogram, density);
  const plan = planOf(intent, families);
  const stray = strayHues(plan);
  return {
    plan,
    value: {
      effectiveHues: coloured ? effectiveHues(density) : null,
      spanDegrees: coloured ? spanDegrees(weight) : null,
      families,
      strayShare: coloured ? dot(weight, stray) : null,
      strayAreaShare: coloured ? dot(area, stray) : null,
      accents: families.filter((f) => f.accent).length,
      accentAreaShare: plan.accent ? dot(area, plan.accentOnly) : null,
      planned: plan.planned,
      template: coloured ? templateOf(weight) : null,
      colourfulness: census.count > 0 ? colourfulness(census) : 0,
      chromaticShare,
      distribution: distribution(histogram),
    },
  };
}

function distribution({ weight }: HueHistogram): number[] {
  const out = new Array<number>(36).fill(0);
  for (let h = 0; h < STEPS; h++) out[Math.floor(h / 10)] += weight[h];
  return out;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

import { expect, test } from 'vitest';
import { effectiveHues, hueDensity, KAPPA, spanDegrees } from '../../../src/readings/hueSpread/density.ts';
import { STEPS } from '../../../src/readings/hueSpread/histogram.ts';

/** A histogram that sums to 1, from a function of the degrees. */
function histogram(at: (h: number) => number): Float64Array {
  const w = Float64Array.from({ length: STEPS }, (_, h) => at(h));
  const sum = w.reduce((s, v) => s + v, 0);
  return w.map((v) => v / sum);
}
const spikes = (...hues: number[]) => histogram((h) => (hues.includes(h) ? 1 : 0));
const bell = (middle: number, sigma: number) =>
  histogram((h) => Math.exp(-0.5 * ((((h - middle + 540) % 360) - 180) / sigma) ** 2));

// The exponential of the entropy of a von Mises density from its closed form ln(2π I₀(κ)) − κ I₁(κ)/I₀(κ)
// (Mardia & Jupp 2000, "Directional statistics", section 3.5.4), in degrees; Bessel functions by their series.
function vonMisesSpread(kappa: number): number {
  const bessel = (order: number): number => {
    let term = (kappa / 2) ** order;
    let sum = term;
    for (let k = 1; k < 400; k++) {
      term *= (kappa / 2) ** 2 / (k * (k + order));
      sum += term;
    }
    return sum;
  };
  const entropy = Math.log(2 * Math.PI * bessel(0)) - (kappa * bessel(1)) / bessel(0);
  return (Math.exp(entropy) * 180) / Math.PI;
}

test('the kernel is half as high 10° from its middle', () => {
  expect(KAPPA).toBeCloseTo(45.6, 1);
  const density = hueDensity(spikes(90));
  expect(density[100] / density[90]).toBeCloseTo(0.5, 3);
  expect(density[80] / density[90]).toBeCloseTo(0.5, 3);
});

test.each([
  { name: 'one hue', weight: spikes(30), hues: 1, digits: 6 },
  { name: 'one hue across the end of the circle', weight: spikes(0), hues: 1, digits: 6 },
  { name: 'two equal opposite hues', weight: spikes(40, 220), hues: 2, digits: 6 },
  { name: 'three equal hues', weight: spikes(10, 130, 250), hues: 3, digits: 5 },
  // 360° over the closed form above: 10.2.
  { name: 'the full circle', weight: histogram(() => 1), hues: 360 / vonMisesSpread(KAPPA), digits: 2 },
  // Two Gaussians in a row: √(15² + σ²) over σ of the kernel, σ ≈ 8.5°.
  { name: 'a family with a standard deviation of 15°', weight: bell(200, 15), hues: 2.0, digits: 1 },
])('$name reads $hues', ({ weight, hues, digits }) => {
  expect(effectiveHues(hueDensity(weight))).toBeCloseTo(hues, digits);
});

test('the full circle is 10.2 as the reading says', () => {
  expect(effectiveHues(hueDensity(histogram(() => 1)))).toBeCloseTo(10.2, 1);
});

test.each([
  { name: 'one hue', weight: spikes(30), span: 0.9 },
  { name: 'the full circle', weight: histogram(() => 1), span: 324 },
  { name: 'a third of the circle', weight: histogram((h) => (h < 60 || h >= 300 ? 1 : 0)), span: 108 },
  { name: 'two opposite hues', weight: spikes(40, 220), span: 180.8 },
  // Nine tenths of a normal law lie within ±1.645 σ.
  { name: 'a bell', weight: bell(355, 20), span: 2 * 1.645 * 20 },
])('$name spans $span°', ({ weight, span }) => {
  expect(Math.abs(spanDegrees(weight) - span)).toBeLessThan(1);
});

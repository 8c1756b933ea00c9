import { describe, expect, test } from 'vitest';
import { ciede2000 } from '../../src/colour/ciede2000.ts';
import { linearToCielab, luminance } from '../../src/colour/cielab.ts';
import { daylight, lightOf, mccamy, planck } from '../../src/colour/daylight.ts';
import { applyWarmth, warmthGains } from '../../src/colour/warmth.ts';

describe('correlated colour temperature', () => {
  // McCamy 1992 for D65 and for illuminant A of CIE 15.
  test.each([
    [0.3127, 0.329, 6505.08],
    [0.44757, 0.40745, 2857.29],
  ])('McCamy of (%d, %d)', (x, y, kelvin) => expect(mccamy({ x, y })).toBeCloseTo(kelvin, 2));

  // CIE 15: chromaticities of the D illuminants.
  test.each([
    [5003, 0.34567, 0.3585],
    [5503, 0.33242, 0.34743],
    [6504, 0.31271, 0.32902],
    [7504, 0.29902, 0.31485],
  ])('daylight of %d K', (kelvin, x, y) => {
    expect(daylight(kelvin).x).toBeCloseTo(x, 3);
    expect(daylight(kelvin).y).toBeCloseTo(y, 3);
  });

  test('a Planckian radiator of 2856 K is illuminant A', () => {
    expect(planck(2856).x).toBeCloseTo(0.44757, 2);
    expect(planck(2856).y).toBeCloseTo(0.40745, 2);
  });
});

describe('warmer and cooler along the daylight locus', () => {
  // White of the moved light must be the D illuminant of that colour temperature (CIE 15), at equal luminance.
  test.each([-60, -20, 20, 60, 90])('%d mired from D65', (mired) => {
    const one = [1, 1, 1];
    applyWarmth(one, 0, warmthGains(mired), 1);
    const wanted = lightOf(daylight(1e6 / (1e6 / 6504 + mired)));
    expect(ciede2000(linearToCielab(one as never), linearToCielab(wanted))).toBeLessThan(0.3);
    expect(luminance(one[0], one[1], one[2])).toBeCloseTo(1, 3);
  });

  test('there and back is the same colour, and half twice is the whole', () => {
    const there = [0.4, 0.2, 0.1];
    applyWarmth(there, 0, warmthGains(40), 1);
    const twice = [0.4, 0.2, 0.1];
    applyWarmth(twice, 0, warmthGains(40), 0.5);
    applyWarmth(twice, 0, warmthGains(40), 0.5);
    for (let c = 0; c < 3; c++) expect(twice[c]).toBeCloseTo(there[c], 10);
  });

  test('beyond the ends of the formula gains stay positive and go on in one direction', () => {
    const blue = [150, 200, 250, 300].map((m) => warmthGains(m)[2]);
    for (let k = 1; k < blue.length; k++) expect(blue[k]).toBeLessThan(blue[k - 1]);
    expect(blue.every((g) => g > 0)).toBe(true);
  });
});

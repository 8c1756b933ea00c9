import { describe, expect, test } from 'vitest';
import { linearToCielab } from '../../../src/colour/cielab.ts';
import { srgbToLinear } from '../../../src/colour/transfer.ts';
import { activePassive, heavyLight, pad, warmCool } from '../../../src/readings/mood/emotion.ts';
import { CUBE, munsellChroma, munsellValue } from '../../../src/readings/mood/munsell.ts';
import reference from './oracle/munsell.json' with { type: 'json' };

const lch = (rgb: readonly number[]) => {
  const [L, a, b] = linearToCielab([srgbToLinear(rgb[0]), srgbToLinear(rgb[1]), srgbToLinear(rgb[2])]);
  return { L, chroma: Math.hypot(a, b), hue: (Math.atan2(b, a) * 180) / Math.PI };
};

describe('colour emotion of Ou et al. 2004', () => {
  // Check values that an independent open implementation carries in its tests (readings.md), to three digits.
  test.each([
    ['blue', [0, 0, 1], -1.393],
    ['red', [1, 0, 0], 2.351],
    ['lime', [0, 1, 0], -0.267],
    ['black', [0, 0, 0], -0.5],
    ['white', [1, 1, 1], -0.5],
  ])('warm–cool of sRGB %s', (_, rgb, expected) => {
    const { chroma, hue } = lch(rgb);
    expect(Math.abs(warmCool(chroma, hue) - expected)).toBeLessThan(0.0015);
  });

  // The ends of the published formulas, by hand.
  test.each([
    { what: 'heavy–light of black', got: heavyLight(0), expected: 2.9 },
    { what: 'heavy–light of white', got: heavyLight(100), expected: -2.1 },
    { what: 'active–passive of middle grey', got: activePassive(50, 0), expected: -1.1 },
    { what: 'active–passive of white', got: activePassive(100, 0), expected: 0.4 },
    { what: 'active–passive of C* 40 at L* 80', got: activePassive(80, 40), expected: 0.4 },
  ])('$what', ({ got, expected }) => {
    expect(got).toBeCloseTo(expected, 9);
  });
});

describe('Munsell by an independent implementation of the renotation data', () => {
  test('value agrees within 0.1', () => {
    for (const { rgb, value } of reference.colours)
      expect(Math.abs(munsellValue(lch(rgb).L) - value)).toBeLessThan(0.1);
  });

  // ASTM D1535: value 5 has a luminance factor of 19.27 % of the perfect diffuser, L* 51.0.
  test('value 5 is L* 51', () => {
    expect(munsellValue(51.0)).toBeCloseTo(5, 1);
  });

  test('chroma is one factor, off as far as the documentation says', () => {
    let sum = 0;
    for (const { rgb, chroma } of reference.colours) sum += (munsellChroma(lch(rgb).chroma) - chroma) ** 2;
    const rms = Math.sqrt(sum / reference.colours.length);
    expect(rms).toBeGreaterThan(1.5);
    expect(rms).toBeLessThan(3);
    expect(munsellChroma(reference.cabPerChroma)).toBeCloseTo(1, 2);
  });

  test('the population of pleasure, arousal and dominance is the sRGB cube', () => {
    expect(CUBE.value[0]).toBeCloseTo(reference.value.mean, 2);
    expect(CUBE.value[1]).toBeCloseTo(reference.value.sd, 2);
    expect(CUBE.chroma[0]).toBeCloseTo(reference.chroma.mean, 2);
    expect(CUBE.chroma[1]).toBeCloseTo(reference.chroma.sd, 2);
  });
});

test('pleasure, arousal and dominance move as Valdez & Mehrabian 1994 say', () => {
  const base = pad(5, 6);
  const dv = 2 / CUBE.value[1];
  const lighter = pad(7, 6);
  expect(lighter.pleasure - base.pleasure).toBeCloseTo(0.69 * dv, 9);
  expect(lighter.arousal - base.arousal).toBeCloseTo(-0.31 * dv, 9);
  expect(lighter.dominance - base.dominance).toBeCloseTo(-0.76 * dv, 9);
  const ds = 4 / CUBE.chroma[1];
  const stronger = pad(5, 10);
  expect(stronger.pleasure - base.pleasure).toBeCloseTo(0.22 * ds, 9);
  expect(stronger.arousal - base.arousal).toBeCloseTo(0.6 * ds, 9);
  expect(stronger.dominance - base.dominance).toBeCloseTo(0.32 * ds, 9);
});

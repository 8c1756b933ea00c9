import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { ciede2000 } from '../../src/colour/ciede2000.ts';
import { linearToCielab, luminance } from '../../src/colour/cielab.ts';
import { daylight, lightOf, mccamy, planck } from '../../src/colour/daylight.ts';
import { warmthGains, warmthMover } from '../../src/colour/warmth.ts';

interface Row {
  readonly kelvin: number;
  readonly x: number;
  readonly y: number;
}
const ORACLE: { daylight: Row[]; illuminantA: Row[]; planck: (Row & { robertson: number })[] } = JSON.parse(
  readFileSync(new URL('./oracle/temperature.json', import.meta.url), 'utf8'),
);

describe('correlated colour temperature', () => {
  // McCamy 1992 for D65 and for illuminant A of CIE 15.
  test.each([
    [0.3127, 0.329, 6505.08],
    [0.44757, 0.40745, 2857.29],
  ])('McCamy of (%d, %d)', (x, y, kelvin) => expect(mccamy({ x, y })).toBeCloseTo(kelvin, 2));

  // CIE 15: D50, D55, D65 and D75 at their colour temperatures; four digits, as the D formula leaves the rest to c₂.
  test.each([
    [5003, 0.34567, 0.3585],
    [5503, 0.33242, 0.34743],
    [6504, 0.31271, 0.32902],
    [7504, 0.29902, 0.31485],
  ])('daylight of %d K', (kelvin, x, y) => {
    expect(Math.abs(daylight(kelvin).x - x)).toBeLessThan(1.5e-4);
    expect(Math.abs(daylight(kelvin).y - y)).toBeLessThan(1.5e-4);
  });

  // LittleCMS 2 (oracle/temperature.py): its daylight locus, and Robertson's isotherms for the Planckian one.
  test.each(ORACLE.daylight)('daylight of $kelvin K is that of LittleCMS', ({ kelvin, x, y }) => {
    expect(Math.abs(daylight(kelvin).x - x)).toBeLessThan(1e-6);
    expect(Math.abs(daylight(kelvin).y - y)).toBeLessThan(1e-6);
  });
  test.each(ORACLE.illuminantA)('illuminant A', ({ kelvin, x, y }) => {
    expect(Math.abs(planck(kelvin).x - x)).toBeLessThan(4e-4);
    expect(Math.abs(planck(kelvin).y - y)).toBeLessThan(4e-4);
  });
  test.each(ORACLE.planck)('a radiator of $kelvin K lies on its isotherm', ({ x, y, robertson, kelvin }) => {
    expect(Math.abs(planck(kelvin).x - x)).toBeLessThan(1e-9);
    expect(Math.abs(planck(kelvin).y - y)).toBeLessThan(1e-9);
    // Half a mired is what 9e-5 in the 1960 diagram, the stated error of the approximation, comes to.
    expect(Math.abs(1e6 / robertson - 1e6 / kelvin)).toBeLessThan(0.5);
  });
});

describe('warmer and cooler along the daylight locus', () => {
  // White of the moved light must be the D illuminant of that colour temperature (CIE 15), at equal luminance.
  test.each([-60, -20, 20, 60, 90])('%d mired from D65', (mired) => {
    const one = [1, 1, 1];
    warmthMover(warmthGains(mired))(one, 0, 1);
    const wanted = lightOf(daylight(1e6 / (1e6 / 6504 + mired)));
    expect(ciede2000(linearToCielab(one as never), linearToCielab(wanted))).toBeLessThan(0.3);
    expect(luminance(one[0], one[1], one[2])).toBeCloseTo(1, 3);
  });

  test('there and back is the same colour, and half twice is the whole', () => {
    const there = [0.4, 0.2, 0.1];
    warmthMover(warmthGains(40))(there, 0, 1);
    const twice = [0.4, 0.2, 0.1];
    warmthMover(warmthGains(40))(twice, 0, 0.5);
    warmthMover(warmthGains(40))(twice, 0, 0.5);
    for (let c = 0; c < 3; c++) expect(twice[c]).toBeCloseTo(there[c], 10);
  });

  test('beyond the ends of the formula gains stay positive and go on in one direction', () => {
    const blue = [150, 200, 250, 300].map((m) => warmthGains(m)[2]);
    for (let k = 1; k < blue.length; k++) expect(blue[k]).toBeLessThan(blue[k - 1]);
    expect(blue.every((g) => g > 0)).toBe(true);
  });
});

import { A98_RGB, DISPLAY_P3, multiply, SRGB, SRGB_TO_XYZ } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import { spaceOfCodes, spaceOfGamma } from '../../src/icc/coded.ts';
import { farthest } from '../made/light.ts';

/** Linear BT.2020 to XYZ: CSS Color Module Level 4, section 17 (lin_2020_to_XYZ). */
const REC2020_TO_XYZ = [
  63426534 / 99577255,
  20160776 / 139408157,
  47086771 / 278816314,
  26158966 / 99577255,
  472592308 / 697040785,
  8267143 / 139408157,
  0,
  19567812 / 697040785,
  295819943 / 278816314,
];

describe('coded descriptions (ITU-T H.273)', () => {
  test('sRGB and Display P3 are the known spaces', () => {
    expect(spaceOfCodes(1, 13)).toBe(SRGB);
    expect(spaceOfCodes(12, 13)).toBe(DISPLAY_P3);
  });
  test('BT.2020 has the matrix of CSS Color 4', () => {
    const space = spaceOfCodes(9, 13);
    if (!space || space === 'hdr') throw new Error('not known');
    expect(farthest(multiply(SRGB_TO_XYZ, space.toSrgb), REC2020_TO_XYZ)).toBeLessThan(1e-6);
  });
  test('any white becomes white', () => {
    for (const primaries of [1, 4, 5, 6, 7, 9, 11, 12]) {
      const space = spaceOfCodes(primaries, 8);
      if (!space || space === 'hdr') throw new Error('not known');
      for (const row of [0, 3, 6]) {
        const sum = space.toSrgb[row] + space.toSrgb[row + 1] + space.toSrgb[row + 2];
        expect(sum).toBeCloseTo(1, 4); // 0.3127, 0.3290 is rounded
      }
    }
  });
  test.each([16, 18])('transfer %i is brighter than white', (transfer) => {
    expect(spaceOfCodes(9, transfer)).toBe('hdr');
  });
  test.each([
    [2, 2],
    [1, 99],
    [200, 13],
  ])('codes %i, %i say nothing', (primaries, transfer) => {
    expect(spaceOfCodes(primaries, transfer)).toBeNull();
  });
});

const SRGB_XY = [0.3127, 0.329, 0.64, 0.33, 0.3, 0.6, 0.15, 0.06];
const A98_XY = [0.3127, 0.329, 0.64, 0.33, 0.21, 0.71, 0.15, 0.06];

describe('gamma and primaries of PNG', () => {
  test.each([
    ['a lone screen gamma says nothing', 0.45455, undefined, null],
    ['screen gamma with sRGB primaries is sRGB', 0.45455, SRGB_XY, SRGB],
    ['screen gamma with a98 primaries is a98-rgb', 0.45471, A98_XY, A98_RGB],
    ['no gamma says nothing', undefined, SRGB_XY, null],
    ['nonsense says nothing', 0.45455, [0, 0, 0, 0, 0, 0, 0, 0], null],
    ['primaries on a line say nothing', 1, [0.3, 0.3, 0.1, 0.1, 0.2, 0.2, 0.4, 0.4], null],
  ])('%s', (_, gamma, xy, expected) => {
    expect(spaceOfGamma(gamma, xy)).toBe(expected);
  });
  test('a linear file is read as linear', () => {
    expect(spaceOfGamma(1, undefined)?.curves[0]).toEqual({ kind: 'power', exponent: 1 });
  });
  test('own primaries: Display P3 written as chunks has the matrix of Display P3', () => {
    const space = spaceOfGamma(0.5, [0.3127, 0.329, 0.68, 0.32, 0.265, 0.69, 0.15, 0.06]);
    expect(farthest(space?.toSrgb ?? [], DISPLAY_P3.toSrgb)).toBeLessThan(1e-6);
    expect(space?.curves[0]).toEqual({ kind: 'power', exponent: 2 });
  });
});

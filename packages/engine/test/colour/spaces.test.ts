import { converter, differenceCiede2000 } from 'culori';
import { describe, expect, test } from 'vitest';
import { ciede2000 } from '../../src/colour/ciede2000.ts';
import { lightness, linearToCielab, luminance, luminanceOf } from '../../src/colour/cielab.ts';
import { type Triple, transform } from '../../src/colour/matrix.ts';
import {
  linearToOklab,
  oklabToLinear,
  oklabToOklch,
  oklchToOklab,
  xyzToOklab,
} from '../../src/colour/oklab.ts';
import { A98_RGB, DISPLAY_P3, SRGB, SRGB_TO_XYZ } from '../../src/colour/rgbSpaces.ts';
import { decode, encode, linearTables } from '../../src/colour/transfer.ts';
import { randomNumbers } from './random.ts';

const apart = (p: Triple, q: Triple): number => Math.max(...p.map((v, k) => Math.abs(v - q[k])));

// Ottosson 2020, "A perceptual color space for image processing", table of test values (three decimals).
describe('OKLab of XYZ', () => {
  test.each<{ xyz: Triple; lab: Triple }>([
    { xyz: [0.95, 1, 1.089], lab: [1, 0, 0] },
    { xyz: [1, 0, 0], lab: [0.45, 1.236, -0.019] },
    { xyz: [0, 1, 0], lab: [0.922, -0.671, 0.263] },
    { xyz: [0, 0, 1], lab: [0.153, -1.415, -0.449] },
  ])('$xyz', ({ xyz, lab }) => expect(apart(xyzToOklab(xyz), lab)).toBeLessThan(5.1e-4));
});

describe('known colours', () => {
  // Display P3 green lies outside sRGB: LittleCMS and libvips give these linear values.
  test('Display P3 green in linear sRGB', () =>
    expect(apart(transform(DISPLAY_P3.toSrgb, [0, 1, 0]), [-0.2249, 1.0421, -0.0786])).toBeLessThan(5e-5));
  // CSS Color 4, section 13, example of gamut mapping.
  test('Display P3 yellow in OKLCh', () => {
    const [L, C, h] = oklabToOklch(linearToOklab(transform(DISPLAY_P3.toSrgb, [1, 1, 0])));
    expect(Math.abs(L - 0.96476)).toBeLessThan(1e-5);
    expect(Math.abs(C - 0.24503)).toBeLessThan(1e-5);
    expect(Math.abs(h - 110.23)).toBeLessThan(6e-3);
  });
  // IEC 61966-2-1: sRGB white is D65, so that white is (1, 0, 0) in OKLab and (100, 0, 0) in CIELAB.
  test.each([SRGB, DISPLAY_P3, A98_RGB])('white of $name', (space) => {
    const white = transform(space.toSrgb, [1, 1, 1]);
    expect(apart(linearToOklab(white), [1, 0, 0])).toBeLessThan(1e-6);
    expect(apart(linearToCielab(white), [100, 0, 0])).toBeLessThan(1e-5);
  });
  // IEC 61966-2-1, the two branches of the curve; a98 from its definition (exponent 563/256).
  test.each([
    { space: SRGB, v: 0.04, light: 0.04 / 12.92 },
    { space: SRGB, v: 0.5, light: 0.21404114048 },
    { space: SRGB, v: -0.5, light: -0.21404114048 },
    { space: A98_RGB, v: 0.5, light: 0.5 ** (563 / 256) },
  ])('code value $v of $space.name', ({ space, v, light }) => {
    expect(decode(space.curves[0], v)).toBeCloseTo(light, 10);
    expect(encode(space.curves[0], light)).toBeCloseTo(v, 10);
  });
});

const random = randomNumbers(20200101);
/** Code values in and beyond 0…1. */
const CODES = Array.from(
  { length: 10_000 },
  (): Triple => [1.4 * random() - 0.2, 1.4 * random() - 0.2, 1.4 * random() - 0.2],
);

// A second opinion: culori 4 (MIT), on 10 000 random colours inside and outside the gamut.
describe.each([
  { space: SRGB, mode: 'rgb' },
  { space: DISPLAY_P3, mode: 'p3' },
  { space: A98_RGB, mode: 'a98' },
] as const)('10 000 colours of $space.name against culori', ({ space, mode }) => {
  const toOklab = converter('oklab');
  const toCielab = converter('lab65');
  const difference = differenceCiede2000();
  const light = CODES.map(
    (c): Triple =>
      transform(space.toSrgb, [
        decode(space.curves[0], c[0]),
        decode(space.curves[1], c[1]),
        decode(space.curves[2], c[2]),
      ]),
  );
  const given = CODES.map(([r, g, b]) => ({ mode, r, g, b }) as const);

  test('OKLab', () => {
    const worst = light.map((rgb, i) => {
      const { l, a, b } = toOklab(given[i]);
      return apart(linearToOklab(rgb), [l, a, b]);
    });
    expect(Math.max(...worst)).toBeLessThan(1e-12);
  });
  test('CIELAB', () => {
    const worst = light.map((rgb, i) => {
      const { l, a, b } = toCielab(given[i]);
      return apart(linearToCielab(rgb), [l, a, b]);
    });
    expect(Math.max(...worst)).toBeLessThan(1e-10);
  });
  test('CIEDE2000 of neighbours in the list', () => {
    const worst = light.slice(1).map((rgb, i) => {
      const mine = ciede2000(linearToCielab(light[i]), linearToCielab(rgb));
      return Math.abs(mine - difference(given[i], given[i + 1]));
    });
    expect(Math.max(...worst)).toBeLessThan(1e-10);
  });
});

describe('there and back', () => {
  const light = CODES.map(([r, g, b]): Triple => [r, g, b]);
  test('OKLab and OKLCh', () => {
    const worst = light.map((rgb) => {
      const lab = linearToOklab(rgb);
      return Math.max(apart(oklabToLinear(lab), rgb), apart(oklchToOklab(oklabToOklch(lab)), lab));
    });
    expect(Math.max(...worst)).toBeLessThan(1e-12);
  });
  test('L* and luminance', () => {
    const worst = light.map(([r, g, b]) => {
      const y = luminance(r, g, b);
      return Math.max(
        Math.abs(luminanceOf(lightness(y)) - y),
        Math.abs(transform(SRGB_TO_XYZ, [r, g, b])[1] - y),
      );
    });
    expect(Math.max(...worst)).toBeLessThan(1e-12);
  });
  test('tables of code values', () => {
    const values = Float64Array.from({ length: 1024 }, (_, i) => (i / 1023) ** 1.8);
    const table = { kind: 'table', values } as const;
    const curved = { ...SRGB, curves: [table, table, { kind: 'power', exponent: 2.2 }] as const };
    for (const depth of [8, 16] as const) {
      const tables = linearTables(curved, depth);
      expect(tables[1]).toBe(tables[0]);
      const max = 2 ** depth - 1;
      for (const c of [0, 1, 2]) {
        expect(tables[c]).toHaveLength(max + 1);
        for (let v = 0; v <= max; v += depth === 8 ? 1 : 97)
          expect(Math.round(max * encode(curved.curves[c], tables[c][v]))).toBe(v);
      }
    }
  });
});

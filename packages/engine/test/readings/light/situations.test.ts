import { expect, test } from 'vitest';
import { miredOf, PER_100_MIRED } from '../../../src/readings/light/locus.ts';
import { logColour } from '../../../src/readings/light/logColour.ts';
import { SITUATIONS } from '../../../src/readings/light/situations.ts';

test('100 mired along the locus at D65 are (0.27, 0.65) in log-chromaticity, from the daylight formula of CIE 15', () => {
  expect(PER_100_MIRED.x).toBeCloseTo(0.27, 1);
  expect(PER_100_MIRED.y).toBeCloseTo(0.65, 1);
});

test('the lamp at night is illuminant A of CIE 15 (2856 K): its mired are counted from there', () => {
  const lamp = SITUATIONS.find((s) => s.name === 'lampAtNight')!;
  expect(lamp.mired).toBeCloseTo(1e6 / 2856 - 1e6 / 9000, 6);
});

/** Linear sRGB of a chromaticity, luminance 1 (matrix of IEC 61966-2-1, inverted). */
function linearOf([x, y]: readonly [number, number]): [number, number, number] {
  const [X, Z] = [x / y, (1 - x - y) / y];
  return [
    3.2404542 * X - 1.5371385 - 0.4985314 * Z,
    -0.969266 * X + 1.8760108 + 0.041556 * Z,
    0.0556434 * X - 0.2040259 + 1.0572252 * Z,
  ];
}

// Chromaticities of CIE 15 (2° observer); D50 is 5003 K, D65 6504 K, A 2856 K.
test.each([
  ['A', [0.44757, 0.40745], 2856],
  ['D50', [0.34567, 0.3585], 5003],
] as const)('the shift from D65 to illuminant %s in mired, within 3 percent', (_, xy, kelvin) => {
  const to = logColour(...linearOf(xy));
  const from = logColour(...linearOf([0.31272, 0.32903]));
  const mired = miredOf({ x: to.x - from.x, y: to.y - from.y })!;
  expect(Math.abs(mired / (1e6 / kelvin - 1e6 / 6504) - 1)).toBeLessThan(0.03);
});

test.each(SITUATIONS.map((s) => [s.title, s] as const))(
  '%s: two colours of luminance 1, K/A at its contrast',
  (_, s) => {
    const Y = (c: readonly number[]): number => 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
    expect(Y(s.key)).toBeCloseTo(1, 6);
    expect(Y(s.fill)).toBeCloseTo(1, 6);
    s.q.forEach((q, c) => {
      expect(q).toBeCloseTo((s.contrast * s.key[c]) / s.fill[c], 9);
    });
    // A warmer key moves log-chromaticity up the locus, a cooler one down.
    if (s.mired !== null) {
      const along = logColour(...s.key).y - logColour(...s.fill).y;
      expect(Math.sign(along)).toBe(Math.sign(s.mired));
    }
  },
);

test('log-chromaticity of a change of light does not depend on the surface (Finlayson, Hordley, Lu, Drew 2006)', () => {
  const { key, fill, contrast } = SITUATIONS[0];
  const changes = [
    [0.6, 0.6, 0.6],
    [0.5, 0.1, 0.05],
    [0.1, 0.3, 0.7],
  ].map((pigment) => {
    const of = (k: number) =>
      logColour(
        pigment[0] * (k * contrast * key[0] + fill[0]),
        pigment[1] * (k * contrast * key[1] + fill[1]),
        pigment[2] * (k * contrast * key[2] + fill[2]),
      );
    const [lit, shade] = [of(1), of(0)];
    return [lit.x - shade.x, lit.y - shade.y, lit.l - shade.l];
  });
  for (const change of changes)
    change.forEach((v, i) => {
      expect(v).toBeCloseTo(changes[0][i], 9);
    });
});

import { expect, test } from 'vitest';
import { PER_100_MIRED } from '../../../src/readings/light/locus.ts';
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

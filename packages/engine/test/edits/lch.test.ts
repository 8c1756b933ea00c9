import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hueOf } from '../../src/colour/hue.ts';
import { hueDistance } from '../../src/edits/lch.ts';

const part = fc.double({ min: -0.5, max: 0.5, noNaN: true });

test('hue is the angle of Math.atan2, anywhere on the circle', () => {
  fc.assert(
    fc.property(part, part, (a, b) => {
      if (Math.hypot(a, b) < 1e-9) return;
      const hue = hueOf(a, b);
      expect(hue).toBeGreaterThanOrEqual(0);
      expect(hue).toBeLessThanOrEqual(360);
      expect(hueDistance(hue, (Math.atan2(b, a) * 180) / Math.PI)).toBeLessThan(2e-6);
    }),
    {
      numRuns: 2000,
      examples: [
        [1e-3, 0],
        [-1e-3, 0],
        [0, 1e-3],
        [0, -1e-3],
        [0.1, 0.1],
        [-0.1, -0.1],
      ],
    },
  );
});

test('the distance of two hues goes the short way', () => {
  for (const [a, b, far] of [
    [10, 350, 20],
    [350, 10, 20],
    [180, 0, 180],
    [90, 90, 0],
    [-30, 690, 0],
    [1000, 0, 80],
  ])
    expect(hueDistance(a, b)).toBeCloseTo(far, 9);
});

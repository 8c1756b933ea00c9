import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hueAt, onRing, radiusAt, turn } from '../../src/screens/intent/ring.ts';

const hue = fc.double({ min: 0, max: 359.999, noNaN: true });

test('a point made from a hue has that hue', () => {
  fc.assert(
    fc.property(hue, fc.double({ min: 5, max: 120, noNaN: true }), (angle, radius) => {
      const { x, y } = onRing(angle, radius);
      expect(Math.abs(turn(hueAt(x, y), angle))).toBeLessThan(1e-9);
      expect(radiusAt(x, y)).toBeCloseTo(radius, 9);
    }),
  );
});

test.each([
  [350, 10, 20],
  [10, 350, -20],
  [0, 180, -180],
  [90, 90, 0],
])('from %d to %d is a turn of %d', (from, to, by) => {
  expect(turn(from, to)).toBe(by);
});

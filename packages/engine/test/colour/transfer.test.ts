import fc from 'fast-check';
import { expect, test } from 'vitest';
import { A98_RGB, SRGB } from '../../src/colour/rgbSpaces.ts';
import type { Curve } from '../../src/colour/space.ts';
import { decode, encode, fastEncoder } from '../../src/colour/transfer.ts';

const table: Curve = {
  kind: 'table',
  values: Float64Array.from({ length: 1024 }, (_, i) => (i / 1023) ** 1.8),
};
const light = fc.double({ min: 0, max: 1, noNaN: true });

test.each([
  ['sRGB', SRGB.curves[0]],
  ['a98-rgb', A98_RGB.curves[0]],
  ['a profile’s table', table],
] as const)(
  '%s: encoding undoes decoding, and the fast encoder is a seventh of a 16-bit step from it',
  (name, curve) => {
    const fast = fastEncoder(curve);
    fc.assert(
      fc.property(light, (l) => {
        expect(decode(curve, encode(curve, l))).toBeCloseTo(l, 9);
        // A pure power rises without end at black: there the table is a chord. Below 1e-4 light a step is held instead.
        if (name === 'sRGB' || l > 1e-4) expect(Math.abs(fast(l) - encode(curve, l))).toBeLessThan(2e-6);
        else expect(Math.abs(fast(l) - encode(curve, l))).toBeLessThan(0.25 / 255);
      }),
      { numRuns: 2000 },
    );
  },
);

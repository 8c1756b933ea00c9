import { expect, test } from 'vitest';
import { srgbCode } from '../../src/colour/codes.ts';
import { linearToSrgb, srgbToLinear } from '../../src/colour/transfer.ts';

// IEC 61966-2-1: an 8-bit code is 255 times the encoded value, rounded.
const rounded = (light: number): number => Math.round(255 * linearToSrgb(Math.min(1, Math.max(0, light))));

test('codes are those of rounding the standard’s own curve, on both sides of every step', () => {
  const near: number[] = [-0.5, 0, 1, 1.5, Number.NaN];
  for (let k = 0; k <= 20_000; k++) near.push(k / 20_000);
  for (let code = 0; code < 255; code++) {
    const step = srgbToLinear((code + 0.5) / 255);
    for (const by of [-1e-6, -1e-9, -1e-12, 0, 1e-12, 1e-9, 1e-6])
      near.push(step + by, Math.fround(step + by));
  }
  const wrong = near.filter((light) => srgbCode(light) !== (Number.isNaN(light) ? 0 : rounded(light)));
  expect(wrong).toEqual([]);
});

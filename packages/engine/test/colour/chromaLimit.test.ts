import { describe, expect, test } from 'vitest';
import { chromaLimit } from '../../src/colour/chromaLimit.ts';
import { fromSrgb, inGamut } from '../../src/colour/gamut.ts';
import { transform } from '../../src/colour/matrix.ts';
import { oklabToLinear, oklchToOklab } from '../../src/colour/oklab.ts';
import { DISPLAY_P3, SRGB } from '../../src/colour/rgbSpaces.ts';
import { randomNumbers } from './random.ts';

describe.each([SRGB, DISPLAY_P3])('the boundary of $name', (space) => {
  const limit = chromaLimit(space);
  const into = fromSrgb(space);
  const inside = (L: number, C: number, h: number): boolean =>
    inGamut(transform(into, oklabToLinear(oklchToOklab([L, C, h]))));
  test('lies within 0.001 of chroma of where channels clip in 97 of 100 places, and never far outside', () => {
    const random = randomNumbers(17);
    let far = 0;
    let outside = 0;
    for (let k = 0; k < 4000; k++) {
      const L = 0.02 + 0.96 * random();
      const h = 360 * random();
      const C = limit(L, h);
      if (!(C < 0.001 || inside(L, C - 0.001, h)) || inside(L, C + 0.001, h)) far++;
      if (C > 0.005 && !inside(L, C - 0.005, h)) outside++;
    }
    expect(far).toBeLessThan(120);
    expect(outside).toBe(0);
  });
  test('black and white have no chroma', () => {
    for (const L of [-0.1, 0, 1, 1.2]) expect(limit(L, 40)).toBe(0);
  });
});

// CSS Color 4, section 13: Display P3 yellow leaves sRGB at chroma 0.21094, next to the sharpest corner there is.
test('a corner of the standard is cut, but not passed', () => {
  const C = chromaLimit(SRGB)(0.96476, 110.23);
  expect(C).toBeLessThanOrEqual(0.21094);
  expect(C).toBeGreaterThan(0.21094 - 0.024);
});

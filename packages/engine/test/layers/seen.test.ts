import { expect, test } from 'vitest';
import { openEye, seenDifference } from '../../src/layers/seen.ts';

/** A seeded number of 0…1 (linear congruential generator, Numerical Recipes). */
let seed = 5;
const chance = (): number => {
  seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
  return seed / 2 ** 32;
};

test.each([0.1, 0.5, 2])('an eye tells at %d what CIEDE2000 tells, for near and far colours', (threshold) => {
  const eye = openEye(threshold);
  let seen = 0;
  for (let i = 0; i < 20_000; i++) {
    const p = Float64Array.from({ length: 4 }, (_, c) =>
      c < 3 ? chance() ** 2 : chance() < 0.9 ? 1 : chance(),
    );
    const reach = 10 ** (-4 * chance());
    const q = p.map((v, c) => (c < 3 ? Math.max(0, v + reach * (chance() - 0.5)) : v));
    eye.at(p);
    const tells = eye.tells(q);
    expect(tells).toBe(seenDifference(p, q) >= threshold);
    if (tells) seen++;
  }
  // Both answers are tried.
  expect(seen).toBeGreaterThan(2000);
  expect(seen).toBeLessThan(18_000);
});

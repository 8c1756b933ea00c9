import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nearestInDirection, pushApart } from '../../../src/screens/class/places.ts';

const cross = [
  { x: 50, y: 50 },
  { x: 90, y: 50 },
  { x: 10, y: 52 },
  { x: 50, y: 10 },
  { x: 48, y: 95 },
  { x: 60, y: 58 },
];

describe('an arrow leads to the nearest work in its direction', () => {
  test.each([
    ['ArrowRight', 5],
    ['ArrowLeft', 2],
    ['ArrowUp', 3],
    ['ArrowDown', 4],
    ['Enter', null],
  ])('%s', (key, to) => {
    expect(nearestInDirection(cross, 0, key)).toBe(to);
  });

  test('and from every work each other one can be reached', () => {
    const at = fc.record({ x: fc.integer({ min: 0, max: 999 }), y: fc.integer({ min: 0, max: 999 }) });
    fc.assert(
      fc.property(
        fc.uniqueArray(at, { minLength: 2, maxLength: 12, selector: ({ x, y }) => `${x} ${y}` }),
        (points) => {
          const reached = new Set([0]);
          for (const from of reached)
            for (const key of ['ArrowRight', 'ArrowLeft', 'ArrowUp', 'ArrowDown']) {
              const to = nearestInDirection(points, from, key);
              if (to !== null) reached.add(to);
            }
          // Nobody is left without a way out; a far corner may need the tab key.
          expect(reached.size).toBeGreaterThan(1);
        },
      ),
      { numRuns: 200 },
    );
  });
});

test('pictures upon each other come apart, and none goes far', () => {
  const same = Array.from({ length: 4 }, () => ({ x: 200, y: 200 }));
  const places = pushApart(same, 60, 400, 400);
  const gaps = places.flatMap((a, i) => places.slice(i + 1).map((b) => Math.hypot(a.x - b.x, a.y - b.y)));
  expect(Math.min(...gaps)).toBeGreaterThan(20);
  for (const { x, y } of places)
    expect(Math.max(Math.abs(x - 200), Math.abs(y - 200))).toBeLessThanOrEqual(36);
});

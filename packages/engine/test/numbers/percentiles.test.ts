import { expect, test } from 'vitest';
import { percentiles } from '../../src/numbers/percentiles.ts';

// numpy.percentile([9, 1, 4, 4, 7, 2], [5, 25, 50, 90], method='hazen') with NumPy 1.24.
test('equal weights agree with the method "hazen" of NumPy', () => {
  const found = percentiles([9, 1, 4, 4, 7, 2], null, [0.05, 0.25, 0.5, 0.9]);
  [1, 2, 4, 8.8].forEach((p, i) => {
    expect(found[i]).toBeCloseTo(p, 12);
  });
});

test('a weight of three is a value that stands there three times, between the ends of its run', () => {
  expect(percentiles([1, 5, 9], [1, 3, 1], [0.5])[0]).toBe(5);
  expect(percentiles([1, 5, 9], [0, 2, 0], [0.1, 0.9])).toEqual([5, 5]);
});

test('without weight there is no percentile', () => {
  expect(percentiles([1, 2], [0, 0], [0.5])).toEqual([Number.NaN]);
});

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { seriesStatistics } from '../../src/class/statistics.ts';

interface Case {
  readonly values: number[];
  readonly count: number;
  readonly median: number;
  readonly low: number;
  readonly high: number;
  readonly mad: number;
  readonly apart: number[];
}

/** Made by oracle/series.py with NumPy and scipy.stats.median_abs_deviation. */
const CASES: Case[] = JSON.parse(readFileSync(new URL('./oracle/series.json', import.meta.url), 'utf8'));

describe('numbers of many works', () => {
  test.each(CASES.map((one) => [one.values.length, one] as const))('%i works, as SciPy has it', (_, one) => {
    const { values, ...expected } = one;
    const found = seriesStatistics(values);
    expect(found?.apart).toEqual(expected.apart);
    expect(found?.count).toBe(expected.count);
    for (const key of ['median', 'low', 'high', 'mad'] as const)
      expect(found?.[key]).toBeCloseTo(expected[key], 10);
  });

  test('works without the number do not count, and keep their places', () => {
    const values = [null, 10, 11, 10, 12, 11, null, 90];
    expect(seriesStatistics(values)).toMatchObject({ count: 6, median: 11, apart: [7] });
    expect(seriesStatistics([null, null])).toBeNull();
  });
});

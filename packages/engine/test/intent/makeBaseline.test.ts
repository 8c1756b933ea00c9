import { describe, expect, test } from 'vitest';
import { type BaselineWork, makeBaseline } from '../../src/intent/makeBaseline.ts';
import { checkBaseline } from '../../src/intent/schema.ts';
import { examine } from '../../src/readings/examine.ts';
import type { ReadingInput } from '../../src/readings/reading.ts';
import { inputOf, paint } from '../readings/pictures.ts';

/** A work with one measure, seen with this evidence. */
const workOf = (value: number | null, level = 'strong'): BaselineWork => [
  {
    id: 'value',
    evidence: { level },
    measures: [{ key: 'key', label: 'key', unit: 'L*', digits: 0, value }],
  },
];

describe('a baseline', () => {
  test('holds percentiles over the works, each counting the same', () => {
    const made = makeBaseline([10, 20, 30, 40, 50].map((value) => workOf(value)));
    // numpy.percentile([10, 20, 30, 40, 50], [10, 50, 90], method='hazen')
    expect(made).toEqual({
      schema: 'halflight/baseline@1',
      works: 5,
      measures: { 'value.key': { p10: 10, p50: 30, p90: 50 } },
    });
    expect(checkBaseline(made).ok).toBe(true);
  });

  test('leaves out what was weakly seen or has no meaning, and measures that too few works have', () => {
    const works = [...[1, 2, 3, 4].map((value) => workOf(value)), workOf(5, 'weak'), workOf(null)];
    expect(makeBaseline(works)?.measures).toEqual({});
  });

  test('is not made of fewer works than say what is usual', () => {
    expect(makeBaseline([1, 2, 3, 4].map((value) => workOf(value)))).toBeNull();
  });
});

describe('what is usual for the artist', () => {
  /** Stripes of all hues with black at the left, the more the larger `dark`. */
  const motley = (dark: number): ReadingInput =>
    inputOf(
      paint(120, 80, (x, y) => (x < dark ? [0, 0, 0] : [0.3 + 0.4 * y, 0.12, (360 * Math.floor(8 * x)) / 8])),
    );
  const works = [0.1, 0.14, 0.18, 0.22, 0.26, 0.3, 0.34].map(motley);
  const baseline = makeBaseline(
    works.map((input) => examine(input).readings.map((r) => ({ ...r, evidence: r.reading.evidence }))),
  );
  const found = (own: typeof baseline): Record<string, number> =>
    Object.fromEntries(
      examine({ ...works[2], baseline: own }).findings.map(({ key, severity }) => [key, severity]),
    );

  test('is no finding in the middle of their works, though it is one for others', () => {
    const general = found(null);
    const own = found(baseline);
    for (const key of ['hueSpread.many', 'headroom.darks']) {
      expect(general[key]).toBeGreaterThan(0.2);
      expect(own[key] ?? 0).toBe(0);
    }
  });
});

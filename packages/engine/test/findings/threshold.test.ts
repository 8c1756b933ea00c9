import { describe, expect, test } from 'vitest';
import {
  forArtist,
  severityOf,
  type Threshold,
  unusualFor,
} from '../../src/findings/thresholds/threshold.ts';
import type { Baseline } from '../../src/intent/baseline.ts';

const rising: Threshold = { from: 4, strong: 6, origin: { kind: 'default', text: 'x' } };
const falling: Threshold = { from: 12, strong: 5, origin: { kind: 'default', text: 'x' } };
const baseline = (works: number, p10: number, p90: number): Baseline => ({
  schema: 'halflight/baseline@1',
  works,
  measures: { 'a.b': { p10, p50: (p10 + p90) / 2, p90 } },
});

describe('severity', () => {
  test.each([
    { value: 3.9, threshold: rising, severity: 0 },
    { value: 4, threshold: rising, severity: 0.2 },
    { value: 5, threshold: rising, severity: 0.4 },
    { value: 6, threshold: rising, severity: 0.6 },
    { value: 13, threshold: falling, severity: 0 },
    { value: 5, threshold: falling, severity: 0.6 },
    { value: Number.NaN, threshold: rising, severity: 0 },
  ])('of $value is $severity', ({ value, threshold, severity }) => {
    expect(severityOf(value, threshold)).toBeCloseTo(severity, 9);
  });
  test('never reaches more than 1 and never falls', () => {
    let before = 0;
    for (let v = 4; v < 60; v += 0.1) {
      const s = severityOf(v, rising);
      expect(s).toBeGreaterThanOrEqual(before);
      expect(s).toBeLessThanOrEqual(1);
      before = s;
    }
  });
});

describe('the artist’s own works', () => {
  test('move a threshold only towards letting more pass', () => {
    expect(forArtist(rising, baseline(12, 2, 5), 'a.b')).toMatchObject({
      from: 5,
      strong: 7,
      origin: { kind: 'baseline' },
    });
    expect(forArtist(rising, baseline(12, 1, 3), 'a.b')).toBe(rising);
    expect(forArtist(falling, baseline(12, 8, 40), 'a.b')).toMatchObject({ from: 8, strong: 1 });
    expect(forArtist(falling, baseline(12, 20, 40), 'a.b')).toBe(falling);
  });
  test('do nothing when they are few, or none, or tell of something else', () => {
    for (const b of [null, baseline(4, 2, 9)]) expect(forArtist(rising, b, 'a.b')).toBe(rising);
    expect(forArtist(rising, baseline(12, 2, 9), 'c.d')).toBe(rising);
  });
  test('make a number unusual only well beyond them', () => {
    const b = baseline(12, 2, 4);
    expect(unusualFor(4.4, b, 'a.b', 1)).toBeNull();
    expect(unusualFor(null, b, 'a.b', 1)).toBeNull();
    expect(unusualFor(5, b, 'a.b', 1)).toMatchObject({ direction: 'more', range: 'usually 2.0 to 4.0' });
    expect(unusualFor(0.5, b, 'a.b', 1)?.direction).toBe('less');
    expect(unusualFor(99, b, 'a.b', 1)!.severity).toBeLessThanOrEqual(0.4);
  });
});

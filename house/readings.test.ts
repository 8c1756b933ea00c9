import { READINGS } from '@halflight/engine';
import { describe, expect, test } from 'vitest';

test('readings have different names', () => {
  const ids = READINGS.map((kind) => kind.id);
  expect(new Set(ids).size).toBe(ids.length);
});

test('no two readings write a map of the same name', () => {
  const files = READINGS.flatMap((kind) => Object.values(kind.mapFiles));
  expect(new Set(files).size).toBe(files.length);
});

describe.each(READINGS.map((kind) => [kind.id, kind] as const))('%s', (_, kind) => {
  test('names its sources', () => {
    expect(kind.sources.length).toBeGreaterThan(0);
  });

  test('has measures with different keys, in words', () => {
    expect(kind.measures.length).toBeGreaterThan(0);
    expect(new Set(kind.measures.map((measure) => measure.key)).size).toBe(kind.measures.length);
    for (const measure of kind.measures) expect(measure.label).toMatch(/^[a-zà-ÿ]/);
  });

  test('says in a sentence what it tells', () => {
    expect(kind.about).toMatch(/^[A-Z].*[.?]$/);
  });
});

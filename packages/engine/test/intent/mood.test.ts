import { describe, expect, test } from 'vitest';
import { blendMood } from '../../src/intent/blendMood.ts';
import type { MoodAxis } from '../../src/intent/intent.ts';
import { MOOD_AXES, MOOD_AXIS_NAMES } from '../../src/intent/moodAxes.ts';
import { type MoodMeasures, moodDistance, stepsBeyond } from '../../src/intent/moodDistance.ts';
import { MOOD_WORDS, placeOf } from '../../src/intent/moodWords.ts';

describe('the table of mood words', () => {
  test('has words enough, none twice', () => {
    expect(MOOD_WORDS.length).toBeGreaterThanOrEqual(24);
    expect(new Set(MOOD_WORDS.map((w) => w.word)).size).toBe(MOOD_WORDS.length);
  });

  test.each(MOOD_WORDS)('$word is explained and lies on the axes', ({ sentence, axes }) => {
    expect(sentence).toMatch(/^[A-Z].{20,140}\.$/);
    const given = Object.entries(axes) as [MoodAxis, { at: number; tolerance: number }][];
    expect(given.length).toBeGreaterThanOrEqual(2);
    for (const [axis, { at, tolerance }] of given) {
      const { from, to } = MOOD_AXES[axis];
      expect(at).toBeGreaterThanOrEqual(from);
      expect(at).toBeLessThanOrEqual(to);
      expect(tolerance).toBeGreaterThan(0);
    }
    // Liveliness alone makes no finding, so that no word may hang on it.
    expect(given.some(([axis]) => axis !== 'activePassive')).toBe(true);
  });

  test('no two words stand at the same place', () => {
    for (const p of MOOD_WORDS)
      for (const q of MOOD_WORDS) {
        if (p === q) continue;
        const axes = MOOD_AXIS_NAMES.filter((a) => p.axes[a] || q.axes[a]);
        const apart = axes.some(
          (a) => !p.axes[a] || !q.axes[a] || stepsBeyond(a, p.axes[a].at, q.axes[a].at, 0) !== 0,
        );
        expect(apart, `${p.word} and ${q.word}`).toBe(true);
      }
  });
});

describe('a word', () => {
  test('can be moved by the artist', () => {
    const own = { still: { key: { at: 20, tolerance: 5 } } };
    expect(placeOf('still', own)).toEqual(own.still);
    expect(placeOf('still')).not.toEqual(own.still);
  });
  test.each(['damp', 'constructor', ''])('“%s” is in no table', (word) => {
    expect(placeOf(word)).toBeNull();
  });
});

describe('blending', () => {
  const own = {
    a: { key: { at: 30, tolerance: 4 }, contrast: { at: 20, tolerance: 5 } },
    b: { key: { at: 50, tolerance: 6 } },
    c: { key: { at: 32, tolerance: 4 } },
  };
  test('of nothing is nothing', () => {
    expect(blendMood({})).toEqual({});
  });
  test('takes the mean place; what only one word says stays', () => {
    expect(blendMood({ words: ['a', 'c'], ownWords: own })).toEqual({
      key: { at: 31, tolerance: 4 },
      contrast: { at: 20, tolerance: 5 },
    });
  });
  test('widens the tolerance where words disagree', () => {
    expect(blendMood({ words: ['a', 'b'], ownWords: own }).key).toEqual({ at: 40, tolerance: 10 });
  });
  test('takes examples beside words', () => {
    const example = {
      name: 'x',
      mean: [0.5, 0, 0],
      covariance: [0, 0, 0, 0, 0, 0],
      measures: { key: 34, softness: 3 },
    } as const;
    const blended = blendMood({ words: ['a'], ownWords: own, examples: [example] });
    expect(blended.key!.at).toBe(32);
    expect(blended.softness).toEqual({ at: 3, tolerance: MOOD_AXES.softness.tolerance });
  });
});

describe('distance', () => {
  test.each([
    { axis: 'key', value: 48, at: 40, tolerance: 8, steps: 0 },
    { axis: 'key', value: 63, at: 40, tolerance: 8, steps: 1 },
    { axis: 'key', value: 17, at: 40, tolerance: 8, steps: -1 },
    { axis: 'softness', value: 9, at: 4, tolerance: 2, steps: 1 },
    { axis: 'softness', value: 2 / 1.5, at: 4, tolerance: 2, steps: -1 },
  ] as const)(
    '$axis $value from $at ± $tolerance is $steps steps',
    ({ axis, value, at, tolerance, steps }) => {
      expect(stepsBeyond(axis, value, at, tolerance)).toBeCloseTo(steps, 9);
    },
  );

  const measures: MoodMeasures = {
    warmCool: -0.5,
    heavyLight: null,
    activePassive: 0,
    key: 70,
    contrast: 40,
    hueSpread: null,
    softness: 3,
  };
  test('counts only axes with a target and a measure, by weight', () => {
    const targets = {
      key: { at: 55, tolerance: 0 },
      contrast: { at: 40, tolerance: 1 },
      hueSpread: { at: 2, tolerance: 1 },
    };
    expect(moodDistance(measures, targets)).toEqual({
      total: Math.sqrt(1 / 2),
      axes: { key: 1, contrast: 0 },
    });
    expect(moodDistance(measures, targets, { contrast: 0 })!.total).toBe(1);
    expect(moodDistance(measures, targets, { contrast: 3 })!.total).toBe(0.5);
  });
  test('is none when nothing can be compared', () => {
    expect(moodDistance(measures, { hueSpread: { at: 2, tolerance: 1 } })).toBeNull();
    expect(moodDistance(measures, {})).toBeNull();
  });
});

import type { Pose } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import type { Look, Work } from '../../src/document/work.ts';
import {
  carriedLooks,
  greyOf,
  heatOf,
  lookSentences,
  moodWord,
  rankIn,
} from '../../src/screens/standback/looks.ts';
import { version, work } from '../samples.ts';

const look = (change: Partial<Look>): Look => ({
  at: '2026-03-02T08:00:00.000Z',
  version: 1,
  by: 'own',
  seconds: 10,
  mirrored: false,
  ...change,
});

/** Version 2 is version 1 mirrored, version 3 its right half. */
const grown: Work = {
  ...work,
  versions: [version, posed(2, { mirrored: true }), posed(3, { x: 0.5, width: 0.5 })],
};

function posed(number: number, pose: Partial<Pose>) {
  const whole: Pose = { mirrored: false, turns: 0, x: 0, y: 0, width: 1, height: 1, ...pose };
  const change = {
    impact: 2,
    impactP95: 3,
    changedShare: 0.5,
    effort: 0.1,
    effortWithoutImpact: 0,
    pose: whole,
  };
  return { ...version, number, change: { from: number - 1, ...change } };
}

describe('looks at earlier versions', () => {
  test('travel with the picture: mirrored, then cropped', () => {
    const [later, earlier] = carriedLooks({
      ...grown,
      looks: [look({ first: [0.2, 0.4] }), look({ version: 2, first: [0.9, 0.1] })],
    });
    expect(earlier.first?.[0]).toBeCloseTo(0.6);
    expect(earlier.first?.[1]).toBeCloseTo(0.4);
    expect(later.first?.[0]).toBeCloseTo(0.8);
  });

  test('lose the place that was cropped away, not what was said', () => {
    const pulledOut = { place: [0.9, 0.5] as const, word: 'an edge' };
    const [only] = carriedLooks({ ...grown, looks: [look({ first: [0.9, 0.5], mood: 1, pulledOut })] });
    expect(only).toMatchObject({ mood: 1, pulledOut: { word: 'an edge' } });
    expect(only.first).toBeUndefined();
    expect(only.pulledOut?.place).toBeUndefined();
  });

  test('stay where the version does not lie on the one before', () => {
    const { change: _change, ...loose } = posed(2, {});
    const [only] = carriedLooks({
      ...work,
      versions: [version, loose],
      looks: [look({ first: [0.5, 0.5] })],
    });
    expect(only.first).toBeUndefined();
  });
});

test('heat is hottest where most looks began', () => {
  const heat = heatOf(
    [
      [0.25, 0.5],
      [0.26, 0.5],
      [0.8, 0.5],
    ],
    1.5,
  );
  const at = (x: number): number =>
    heat.data[Math.floor(0.5 * heat.height) * heat.width + Math.floor(x * heat.width)];
  expect(at(0.25)).toBeGreaterThan(240);
  expect(at(0.8)).toBeGreaterThan(100);
  expect(at(0.8)).toBeLessThan(160);
  expect(at(0.5)).toBe(0);
});

test('the rank in a map is the share of places that say less', () => {
  const map = { width: 2, height: 2, data: Uint8Array.from([0, 10, 20, 30]) };
  expect(rankIn(map, [0.9, 0.9])).toBe(0.75);
  expect(rankIn(map, [0, 0])).toBe(0);
  expect(rankIn(map, [1, 1])).toBe(0.75);
});

describe('what looks say together', () => {
  const predicted = { width: 10, height: 1, data: Uint8Array.from({ length: 10 }, (_, i) => 20 * i) };
  const focus = { width: 2, height: 1, data: Uint8Array.from([0, 255]) };
  const facts = { average: 50, predicted, focus };

  test('where they began, against focus and prediction', () => {
    const looks = [look({ first: [0.95, 0.5] }), look({ first: [0.6, 0.5] }), look({ first: [0.1, 0.5] })];
    expect(lookSentences(looks, facts)).toEqual([
      'Two of three looks began in the focus.',
      'One of three looks began where the eye is predicted to go.',
    ]);
    expect(lookSentences([looks[2]], { ...facts, focus: null })).toEqual([
      'The look did not begin where the eye is predicted to go.',
    ]);
  });

  test('the mood and what pulled the eye out', () => {
    const looks = [
      look({ mood: 1, pulledOut: { word: 'an edge' } }),
      look({ mood: 0.5, pulledOut: { word: 'an edge' } }),
    ];
    expect(lookSentences(looks, null)).toEqual([
      'Two looks say on the average that the mood is mostly there.',
      'What pulled the eye out: an edge (two times).',
    ]);
  });

  test('nothing when nothing was said', () => {
    expect(lookSentences([look({})], facts)).toEqual([]);
  });
});

test.each([
  [0, 'not there'],
  [0.5, 'half there'],
  [1, 'all there'],
])('a mood of %d is “%s”', (mood, word) => {
  expect(moodWord(mood)).toBe(word);
});

// L* 20 and 50 in 8-bit sRGB: the greys of the sheet of tokens; 100 is white by definition (CIE 15).
test.each([
  [0, 'rgb(0 0 0)'],
  [20, 'rgb(48 48 48)'],
  [50, 'rgb(119 119 119)'],
  [100, 'rgb(255 255 255)'],
])('the grey of L* %d is %s', (lightness, css) => {
  expect(greyOf(lightness)).toBe(css);
});

import { type Baseline, checkBaseline, checkIntent, type Intent } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import { placeOf } from '../../src/intent/moodWords.ts';

const FULL: Intent = {
  schema: 'halflight/intent@1',
  mood: { words: ['still'], axes: { warmCool: { at: -1, tolerance: 0.4 }, key: { at: 30, tolerance: 8 } } },
  light: { kind: 'surface', lit: [0.6, 0.4, 0.2], shade: [0.1, 0.1, 0.2] },
  focus: { outlines: [[0.1, 0.1, 0.4, 0.1, 0.4, 0.5]] },
  hue: { families: [{ hue: 260, width: 60 }], accent: { hue: 60, width: 30 }, limit: 2.5 },
  feel: 'Somebody is still waiting for the last boat.',
  delivery: { space: 'display-p3', longSide: 4000 },
  layerLimit: 6,
};

const RANGE = { p10: 1, p50: 2, p90: 3 };
const BASELINE: Baseline = {
  schema: 'halflight/baseline@1',
  works: 12,
  measures: { 'hueSpread.effectiveHues': RANGE },
};

describe('a kept intent', () => {
  test('comes back as it was written', () => {
    expect(checkIntent(JSON.parse(JSON.stringify(FULL)))).toEqual({ ok: true, value: FULL });
  });

  test('keeps fields that only a newer program knows', () => {
    const newer = { ...FULL, soundtrack: 'rain', delivery: { space: 'srgb', paper: 'matte' } };
    expect(checkIntent(newer)).toEqual({ ok: true, value: newer });
  });

  test('gets the axes that its words stand for when it gives none', () => {
    const checked = checkIntent({ schema: FULL.schema, mood: { words: ['frozen'] } });
    expect(checked.ok && checked.value.mood).toEqual({ words: ['frozen'], axes: placeOf('frozen') });
  });

  test('may use words of its own', () => {
    const mood = { words: ['harbour'], ownWords: { harbour: { key: { at: 40, tolerance: 5 } } } };
    const checked = checkIntent({ schema: FULL.schema, mood });
    expect(checked.ok && checked.value.mood?.axes).toEqual({ key: { at: 40, tolerance: 5 } });
  });

  test.each<[what: string, value: unknown, trouble: string]>([
    ['no object', 7, 'The whole should be Object, but is 7.'],
    ['another schema', { schema: 'halflight/recipe@1' }, '“schema” should be "halflight/intent@1"'],
    ['no schema', {}, '“schema” is missing.'],
    ['a newer schema', { ...FULL, schema: 'halflight/intent@2' }, 'written by a newer Halflight'],
    ['a misspelt part', { ...FULL, moood: {} }, '“moood” is not known here; “mood” may be meant.'],
    [
      'a misspelt axis',
      { ...FULL, mood: { axes: { wramCool: { at: 0, tolerance: 1 } } } },
      '“warmCool” may be',
    ],
    ['an unknown mood word', { ...FULL, mood: { words: ['damp'] } }, 'names “damp”, which has no place'],
    ['a misspelt mood word', { ...FULL, mood: { words: ['malancholy'] } }, '“melancholy” may be meant'],
    ['a limit below one hue', { ...FULL, hue: { families: [], limit: 0.5 } }, '“hue.limit” should be >=1'],
    [
      'a word for a number',
      { ...FULL, layerLimit: 'eight' },
      '“layerLimit” should be number, but is "eight".',
    ],
    ['an unknown light', { ...FULL, light: { kind: 'torch' } }, '“light.kind” should be'],
    ['half an outline', { ...FULL, focus: { outlines: [[0, 0, 1, 0, 1, 1, 0]] } }, 'pairs of x and y'],
    [
      'a missing half',
      { ...FULL, mood: { axes: { key: { at: 3 } } } },
      '“mood.axes.key.tolerance” is missing.',
    ],
  ])('with %s is refused in a sentence', (_, value, trouble) => {
    const checked = checkIntent(value);
    expect(checked.ok ? '' : checked.trouble).toContain(trouble);
  });
});

describe('a kept baseline', () => {
  test('comes back as it was written', () => {
    expect(checkBaseline(JSON.parse(JSON.stringify(BASELINE)))).toEqual({ ok: true, value: BASELINE });
  });

  test('whose range does not rise is refused', () => {
    const measures = { 'value.key': { p10: 3, p50: 2, p90: 4 } };
    const checked = checkBaseline({ ...BASELINE, measures });
    expect(checked.ok ? '' : checked.trouble).toContain('should rise from p10 to p90');
  });

  test('without works is refused', () => {
    expect(checkBaseline({ ...BASELINE, works: 0 }).ok).toBe(false);
  });
});

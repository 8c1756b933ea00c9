import { expect, test } from 'vitest';
import { EMPTY_RECIPE, STEPS, stepKind, stepSentence, workingSteps } from '../../src/index.ts';

/** Which parameters have something to tell, and the sentence. */
test.each([
  [
    'openEnds',
    ['darks', 'lights', 'chroma'],
    'bring in darks by {darks}, lights by {lights} and the strongest colours by {chroma}',
  ],
  ['openEnds', ['darks'], 'bring in darks by {darks}'],
  ['valueGroups', ['middles', 'lights'], 'move middles by {middles} and lights by {lights}'],
  ['veil', ['glow'], 'lay glow of {glow} over it'],
  ['accent', ['light'], 'lift the accent by {light} in light'],
  ['veil', [], 'lay fog of {scatter} and glow of {glow} over it'],
  ['contrast', [], 'contrast by {amount} about a value of {pivot}'],
] as const)('%s tells %j', (kind, told: readonly string[], sentence) => {
  expect(stepSentence(stepKind(kind), ({ key }) => told.includes(key))).toBe(sentence);
});

// Those that need more than numbers are left away: what they need would have to be made up.
test.each(STEPS.filter(({ needs }) => needs.length === 0).map(({ id }) => id))(
  '%s without a value is no step that works',
  (kind) => {
    const step = { kind, on: true, strength: 1, values: {} };
    expect(workingSteps({ ...EMPTY_RECIPE, steps: [step] })).toEqual([]);
  },
);

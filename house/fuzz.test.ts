import { checkBaseline, checkIntent, checkRecipe } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import { KINDS } from '../scripts/fuzz/kinds.ts';
import { chanceOf } from '../scripts/fuzz/random.ts';
import { BASELINES, INTENTS, RECIPES } from '../scripts/fuzz/samples.ts';

/*
 * A few hundred changed inputs of every kind; `node scripts/fuzz.mjs` tries ten thousand of each in processes of
 * their own, with bounds of time, memory and writing.
 */
const COUNT = 120;
const SEED = 7;

/** Inputs that once were findings, by kind, seed and number. */
const FOUND: Record<string, readonly [seed: number, number: number][]> = {};

describe.each(Object.entries(KINDS))('%s', async (name, open) => {
  const kind = await open();

  test('changed inputs are read or refused in words', async () => {
    const outcomes = new Set<string>();
    for (let number = 0; number < COUNT; number++)
      outcomes.add(await kind.feed(kind.make(chanceOf(SEED, number))));
    expect(outcomes).toContain('read');
  });

  test('what once was found stays mended', async () => {
    for (const [seed, number] of FOUND[name] ?? [])
      expect(['read', 'refused']).toContain(await kind.feed(kind.make(chanceOf(seed, number))));
  });

  test('an input is made again from its seed and number', () => {
    expect(kind.make(chanceOf(3, 5))).toEqual(kind.make(chanceOf(3, 5)));
    expect(kind.make(chanceOf(3, 5))).not.toEqual(kind.make(chanceOf(3, 6)));
  });
});

test.each([
  ['recipe', RECIPES, checkRecipe],
  ['intent', INTENTS, checkIntent],
  ['baseline', BASELINES, checkBaseline],
] as const)('the samples of a %s are sound before they are changed', (_, samples, check) => {
  expect(samples.map((sample) => check(sample)).map((it) => (it.ok ? null : it.trouble))).toEqual(
    samples.map(() => null),
  );
});

test.each([
  ['{}', 'The whole'],
  [{ schema: 'halflight/recipe@1' }, '“steps” is missing.'],
  [
    { schema: 'halflight/recipe@1', steps: [{ kind: 'exposure', strength: 'much' }] },
    '“steps.0.strength” should be',
  ],
  [
    { schema: 'halflight/recipe@1', steps: [{ kind: 'match', data: { from: 1 } }] },
    '“steps.0.data.from” should be',
  ],
])('a recipe that is none is refused in plain words: %j', (recipe, words) => {
  const checked = checkRecipe(recipe);
  expect(checked.ok ? '' : checked.trouble).toContain(words);
});

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
const FOUND: Record<string, readonly [seed: number, number: number][]> = {
  // Ends of a gradient so far out that their distance is no number.
  recipe: [
    [1, 3119],
    [1, 6026],
  ],
  // Twenty isolated groups in each other, which once took over ten seconds to weigh.
  openraster: [[1, 6188]],
  // A hue of 2⁵³ degrees, past which adding one changes nothing: the reading went round without end.
  intent: [[1, 1977]],
  // A journal that goes on after a snapshot which was lost.
  kept: [[1, 40]],
};

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

test('hues and places of a recipe end where their pictures do', () => {
  const gradient = { joining: 'add', kind: 'gradient', from: [0, 1e308], to: [1, 1] };
  const families = [{ hue: 2 ** 53, width: 60 }];
  for (const more of [{ area: { parts: [gradient] } }, { data: { families } }])
    expect(
      checkRecipe({ schema: 'halflight/recipe@1', steps: [{ kind: 'exposure', ...more }] }),
    ).toMatchObject({ ok: false, trouble: expect.stringMatching(/should be/) });
  expect(checkIntent({ schema: 'halflight/intent@1', hue: { families } })).toMatchObject({ ok: false });
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

import { EMPTY_RECIPE, type Recipe } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import { apply, type Command, commandWords } from '../../src/document/commands.ts';
import { recipeOf } from '../../src/document/recipe.ts';
import { asEntry } from '../../src/document/schema.ts';
import { step, work } from '../samples.ts';

const title = 'Exposure';
const named = (...stops: number[]): Recipe => ({
  schema: 'halflight/recipe@1',
  steps: stops.map((stop) => step({ values: { stops: stop } })),
});
const edited = { ...work, recipe: named(1, 2, 3) };
const orderAfter = (command: Command): number[] =>
  recipeOf(apply(edited, command)).steps.map(({ values }) => values.stops);

test('a work without an edit has an empty one', () => {
  expect(recipeOf(work)).toEqual(EMPTY_RECIPE);
});

describe('the steps after', () => {
  test.each<[Command, number[]]>([
    [{ kind: 'addStep', title, step: step({ values: { stops: 4 } }) }, [1, 2, 3, 4]],
    [{ kind: 'changeStep', title, at: 1, step: step({ values: { stops: 9 } }) }, [1, 9, 3]],
    [{ kind: 'moveStep', title, at: 0, to: 2 }, [2, 3, 1]],
    [{ kind: 'moveStep', title, at: 2, to: 0 }, [3, 1, 2]],
    [{ kind: 'moveStep', title, at: 1, to: 99 }, [1, 3, 2]],
    [{ kind: 'removeStep', title, at: 1 }, [1, 3]],
    [{ kind: 'takeRecipe', title: 'the proposal', recipe: named(7) }, [7]],
  ])('%o are %j', (command, order) => {
    expect(orderAfter(command)).toEqual(order);
  });
});

test('a switch changes nothing but its step', () => {
  const { steps } = recipeOf(apply(edited, { kind: 'switchStep', title, at: 1, on: false }));
  expect(steps.map(({ on }) => on)).toEqual([true, false, true]);
});

test.each<Command>([
  { kind: 'removeStep', title, at: 3 },
  { kind: 'changeStep', title, at: 3, step: step() },
  { kind: 'moveStep', title, at: 1, to: 1 },
  { kind: 'switchStep', title, at: 0, on: true },
])('%o changes nothing', (command) => {
  expect(apply(edited, command)).toBe(edited);
});

test.each<[Command, string]>([
  [{ kind: 'addStep', title, step: step() }, 'adding “Exposure”'],
  [{ kind: 'switchStep', title, at: 0, on: false }, 'switching “Exposure” off'],
  [{ kind: 'moveStep', title, at: 0, to: 1 }, 'moving “Exposure”'],
  [{ kind: 'takeRecipe', title: 'the proposal', recipe: EMPTY_RECIPE }, 'the proposal'],
])('%o is called “%s”, and the journal reads it again', (command, words) => {
  expect(commandWords(command)).toBe(words);
  const entry = { kind: 'do', command };
  expect(asEntry(JSON.parse(JSON.stringify(entry)))).toEqual(entry);
});

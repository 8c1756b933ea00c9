import { describe, expect, test } from 'vitest';
import { SRGB } from '../../src/colour/rgbSpaces.ts';
import { readyRecipe } from '../../src/edits/compile.ts';
import { editView } from '../../src/edits/editView.ts';
import { STEPS } from '../../src/edits/list.ts';
import { checkRecipe } from '../../src/edits/recipeSchema.ts';
import type { Recipe, Step, StepData } from '../../src/edits/step.ts';
import { measuredIn } from '../../src/proposal/measured.ts';
import { atOption, type Option, optionAxes, optionSheet } from '../../src/proposal/options.ts';
import { examineReading } from '../../src/readings/examine.ts';
import { READINGS } from '../../src/readings/list.ts';
import { reduceView } from '../../src/views/resample.ts';
import { dusk, inputOf, paint } from '../readings/pictures.ts';

const DATA: StepData = {
  families: [{ hue: 285, width: 40 }],
  colour: [0.3, 0.35, 0.5],
  gains: [0.8, 1, 1.5],
  from: { mean: [0.5, 0.02, -0.03], covariance: [0.04, 0, 0, 0, 0.003, 0, 0, 0, 0.004] },
  to: { mean: [0.45, 0.01, -0.05], covariance: [0.03, 0.001, 0, 0.001, 0.002, 0, 0, 0, 0.006] },
};
const stepFor = (kind: (typeof STEPS)[number]): Step => ({
  kind: kind.id,
  on: true,
  strength: 1,
  values: { [kind.parameters[0].key]: kind.parameters[0].first },
  data: DATA,
});
const recipeOf = (...steps: Step[]): Recipe => ({ schema: 'halflight/recipe@1', steps });

test.each(STEPS.map((kind) => [kind.id, kind] as const))(
  '%s: 12 to 30 settings, each a valid recipe',
  (_, kind) => {
    const step = stepFor(kind);
    const { across, down } = optionAxes(step);
    const count = across.values.length * (down?.values.length ?? 1);
    expect(count).toBeGreaterThanOrEqual(12);
    expect(count).toBeLessThanOrEqual(30);
    for (const x of across.values)
      for (const y of down?.values ?? [0]) {
        const one = atOption(step, across, x);
        const option = down ? atOption(one, down, y) : one;
        expect(checkRecipe(JSON.parse(JSON.stringify(recipeOf(option)))).ok).toBe(true);
      }
  },
);

describe('a sheet of warmer and cooler', () => {
  const input = inputOf(paint(180, 120, dusk), { mood: { axes: { warmCool: { at: -1, tolerance: 0.05 } } } });
  const mood = examineReading(READINGS.find((kind) => kind.id === 'mood')!, input);
  const recipe = recipeOf({ kind: 'warmth', on: true, strength: 1, values: { mired: -20 } });
  const sheet = { input, recipe, index: 0, ...optionAxes(recipe.steps[0]), longSide: 90 };
  const options: Option[] = [...optionSheet(sheet, measuredIn({ readings: [mood] }))];

  test('has a picture of each setting, the one that the edit itself makes', () => {
    expect(options.map((o) => o.column)).toEqual(sheet.across.values.map((_, k) => k));
    for (const { recipe: own, view } of options) {
      const small = reduceView(input.views.close, 90);
      expect(view.rgb).toEqual(editView(readyRecipe(own, null), small, SRGB).rgb);
    }
  });

  test('says which are nearer to the mood: the cooler they are', () => {
    const distances = options.map((o) => o.distance!);
    expect(distances).toEqual([...distances].sort((a, b) => a - b));
    expect(distances[0]).toBeLessThan(distances.at(-1)! - 0.2);
  });

  test('where nothing is set, the distance is the reading’s own', () => {
    const still = [
      ...optionSheet(
        { ...sheet, across: { ...sheet.across, values: [0] } },
        measuredIn({ readings: [mood] }),
      ),
    ];
    const own = (mood.reading.value as { distance: { total: number } }).distance.total;
    expect(still[0].distance).toBeCloseTo(own, 6);
  });
});

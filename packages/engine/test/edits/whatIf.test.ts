import { describe, expect, test } from 'vitest';
import type { Area } from '../../src/areas/area.ts';
import { takeCensus } from '../../src/census/take.ts';
import { SRGB } from '../../src/colour/rgbSpaces.ts';
import { readyRecipe } from '../../src/edits/compile.ts';
import { editCensus } from '../../src/edits/editCensus.ts';
import { editRaster } from '../../src/edits/editRows.ts';
import { editView } from '../../src/edits/editView.ts';
import type { Recipe, Step } from '../../src/edits/step.ts';
import { takeSurvey } from '../../src/edits/survey.ts';
import { hueSpreadOf } from '../../src/readings/hueSpread/measure.ts';
import { makeCloseView } from '../../src/views/average.ts';
import { reduceView } from '../../src/views/resample.ts';
import { grain, hills, paint } from '../readings/pictures.ts';

const picture = paint(240, 160, (x, y) => [
  0.3 + 0.4 * y + 0.05 * hills(x, y, 6, 2),
  0.06 + 0.05 * x + 0.01 * grain(Math.round(240 * x), Math.round(160 * y), 3),
  x < 0.4 ? 285 : x < 0.7 ? 60 : 170,
]);
const families = [
  { hue: 285, width: 40 },
  { hue: 60, width: 40 },
];
const step = (part: Partial<Step> & Pick<Step, 'kind' | 'values'>): Step => ({
  on: true,
  strength: 1,
  ...part,
});
const recipe: Recipe = {
  schema: 'halflight/recipe@1',
  steps: [
    step({ kind: 'gatherHues', values: { amount: 60 }, data: { families } }),
    step({ kind: 'exposure', values: { stops: -0.4 } }),
    step({ kind: 'chroma', values: { gain: 1.3 }, strength: 0.5 }),
  ],
};
const right: Area = {
  parts: [{ joining: 'add', kind: 'outline', outlines: [[0.7, 0, 1, 0, 1, 1, 0.7, 1]] }],
  soften: 0,
};
const onlyRight: Recipe = { ...recipe, steps: recipe.steps.map((s) => ({ ...s, area: right })) };

/** Means of OKLab over a census. */
function means({ count, share, lab }: ReturnType<typeof takeCensus>): number[] {
  const sum = [0, 0, 0];
  for (let i = 0; i < count; i++) for (let c = 0; c < 3; c++) sum[c] += share[i] * lab[3 * i + c];
  return sum;
}

describe('what an edit would do, before it is done to every pixel', () => {
  const real = takeCensus(editRaster(readyRecipe(recipe, null), picture, picture));

  test('the edited census is the census of the edited picture', () => {
    const guess = editCensus(readyRecipe(recipe, null), takeCensus(picture), SRGB);
    for (let c = 0; c < 3; c++) expect(means(guess)[c]).toBeCloseTo(means(real)[c], 3);
    expect(hueSpreadOf(guess)).toBeCloseTo(hueSpreadOf(real)!, 1);
  });

  test('the edited view is the view of the edited picture', () => {
    const guess = editView(readyRecipe(recipe, null), makeCloseView(picture), SRGB);
    const wanted = makeCloseView(editRaster(readyRecipe(recipe, null), picture, picture));
    for (let i = 0; i < guess.rgb.length; i++)
      expect(Math.abs(guess.rgb[i] - wanted.rgb[i])).toBeLessThan(0.012);
  });

  test('with an area, the census keeps its own counts and takes only the covers from the view', () => {
    const close = makeCloseView(picture);
    const ready = readyRecipe(onlyRight, close);
    const own = takeCensus(picture);
    const survey = takeSurvey(reduceView(close, 120), ready.areas, own);
    means(own).forEach((mean, c) => {
      expect(means(survey.census)[c]).toBeCloseTo(mean, 9);
    });
    const done = takeCensus(editRaster(ready, picture, picture));
    const guess = editCensus(ready, survey, SRGB);
    for (let c = 0; c < 3; c++) expect(means(guess)[c]).toBeCloseTo(means(done)[c], 2);
  });

  test('with an area, colours are told apart by what covers them', () => {
    const close = makeCloseView(picture);
    const ready = readyRecipe(onlyRight, close);
    const guess = editCensus(ready, takeSurvey(close, ready.areas), SRGB);
    const done = takeCensus(editRaster(ready, picture, picture));
    for (let c = 0; c < 3; c++) expect(means(guess)[c]).toBeCloseTo(means(done)[c], 2);
    const left = editRaster(ready, picture, picture).data;
    expect(left[3 * (80 * 240 + 20)]).toBe(picture.data[3 * (80 * 240 + 20)]);
  });
});

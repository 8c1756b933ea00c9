import { fitArea } from '../areas/rasterise.ts';
import { censusOfView } from '../census/ofView.ts';
import { stepRunner } from '../edits/compile.ts';
import { editView } from '../edits/editView.ts';
import type { Recipe, Step } from '../edits/step.ts';
import { MOOD_AXIS_NAMES } from '../intent/moodAxes.ts';
import { moodDistance } from '../intent/moodDistance.ts';
import { deliverySpace } from '../readings/headroom/headroom.ts';
import type { ReadingInput } from '../readings/reading.ts';
import { makeWholeView, reduceView } from '../views/resample.ts';
import type { View } from '../views/view.ts';
import { type Measured, measureColours } from './measured.ts';
import { wholeOf } from './sample.ts';

/**
 * Prepares small edited pictures, each with its distance from the mood in steps (null when none is intended).
 *
 * @param recipe steps with the areas that all pictures share
 * @param before the numbers of the picture as the readings have them: a mood is told from how far an edit moves them
 * @returns makes a picture of other steps with the same areas in the same order
 */
export function smallEditor(
  input: ReadingInput,
  recipe: Recipe,
  longSide: number,
  before: Measured,
): (steps: readonly Step[]) => { readonly view: View; readonly distance: number | null } {
  const { intent } = input;
  const space = deliverySpace(intent);
  const small = reduceView(input.views.close, longSide);
  const fits = recipe.steps.map((step) => (step.area ? fitArea(step.area, small) : null));
  const areas = fits.filter((fit) => fit !== null);
  const covers = fits.map((fit) => (fit ? areas.indexOf(fit) : null));
  const measure = (view: View): Measured =>
    measureColours(
      censusOfView(view, null),
      wholeOf(makeWholeView(view), intent.focus),
      intent,
      space,
      before,
    );
  const start = measure(small);
  return (steps) => {
    const view = editView({ areas, edit: stepRunner(steps, covers) }, small, space);
    return { view, distance: intent.mood ? distanceOf(input, before, start, measure(view)) : null };
  };
}

function distanceOf(
  { intent: { mood } }: ReadingInput,
  before: Measured,
  start: Measured,
  now: Measured,
): number | null {
  if (!mood || !before.mood || !start.mood || !now.mood) return null;
  const measures = { ...before.mood };
  for (const axis of MOOD_AXIS_NAMES) {
    const [own, from, to] = [before.mood[axis], start.mood[axis], now.mood[axis]];
    measures[axis] = own === null || from === null || to === null ? own : own + to - from;
  }
  return moodDistance(measures, mood.axes, mood.weights)?.total ?? null;
}

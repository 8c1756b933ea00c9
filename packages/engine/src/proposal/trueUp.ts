import type { Census } from '../census/census.ts';
import type { ColourSpace } from '../colour/space.ts';
import { readyRecipe } from '../edits/compile.ts';
import { editCensus } from '../edits/editCensus.ts';
import { editView } from '../edits/editView.ts';
import type { Step } from '../edits/step.ts';
import { takeSurvey } from '../edits/survey.ts';
import type { ReadingInput } from '../readings/reading.ts';
import { makeWholeView, reduceView } from '../views/resample.ts';
import type { View } from '../views/view.ts';
import { measureColours } from './measured.ts';
import { type Objective, offsOf } from './objective.ts';
import { wholeOf } from './sample.ts';
import { recipeOf } from './slots.ts';

/** Long side of the copy on which a recipe is held against the picture's own colours. */
const LONG_SIDE = 320;

/** For steps, how far the gauges of the edited picture lie from those guessed on its sample. */
export type TrueUp = (steps: readonly (Step | null)[]) => Float64Array;

/**
 * Holds guesses against the picture's own colours: the edit on the whole census (or, with areas, on a survey), and
 * blurred only after it.
 */
export function trueUpFor(input: ReadingInput, tried: Objective, space: ColourSpace): TrueUp {
  const { gauges, bias, truth } = tried;
  const { census, intent, views } = input;
  const truly = offsOf(gauges, truth);
  const small = reduceView(views.middle, LONG_SIDE);
  const measure = (colours: Census, seen: View): Float64Array =>
    offsOf(gauges, measureColours(colours, wholeOf(makeWholeView(seen), intent.focus), intent, space, truth));
  let asIs: Float64Array | null = null;
  return (steps) => {
    if (tried.slots.every(({ unknowns }) => unknowns.length === 0) || steps.every((step) => step === null))
      return bias;
    const ready = readyRecipe(recipeOf(steps), small);
    const colours = ready.areas.length > 0 ? takeSurvey(views.middle, ready.areas, census) : census;
    // Splitting colours by what covers them leaves their sums as they are.
    asIs ??= measure(census, small);
    const before = asIs;
    const after = measure(editCensus(ready, colours, space), editView(ready, small, space));
    const guessed = tried.try(steps).offs;
    return bias.map((b, k) => {
      const off = truly[k] + (after[k] - before[k]) - guessed[k];
      return Number.isNaN(off) ? b : b + off;
    });
  };
}

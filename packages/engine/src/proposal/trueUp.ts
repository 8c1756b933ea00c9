import type { ColourSpace } from '../colour/space.ts';
import { readyRecipe } from '../edits/compile.ts';
import { editCensus } from '../edits/editCensus.ts';
import { editView } from '../edits/editView.ts';
import type { Step } from '../edits/step.ts';
import { takeSurvey } from '../edits/survey.ts';
import type { ReadingInput } from '../readings/reading.ts';
import { makeWholeView, reduceView } from '../views/resample.ts';
import { measureColours } from './measured.ts';
import { type Objective, offsOf } from './objective.ts';
import { wholeOf } from './sample.ts';
import { recipeOf } from './slots.ts';

/** Long side of the copy on which a recipe is held against the picture's own colours. */
const LONG_SIDE = 320;

/**
 * How far the gauges of an edited picture lie from those guessed on its sample: the edit on the whole census (or, with
 * areas, on a survey), and blurred only after it.
 */
export function trueUp(
  input: ReadingInput,
  tried: Objective,
  steps: readonly (Step | null)[],
  space: ColourSpace,
): Float64Array {
  const { gauges, bias, truth } = tried;
  if (tried.slots.every(({ unknowns }) => unknowns.length === 0) || steps.every((step) => step === null))
    return bias;
  const small = reduceView(input.views.close, LONG_SIDE);
  const ready = readyRecipe(recipeOf(steps), small);
  const colours =
    ready.areas.length > 0 ? takeSurvey(input.views.close, ready.areas, input.census) : input.census;
  const focus = input.intent.focus;
  const measure = (edit: boolean) => {
    const whole = makeWholeView(edit ? editView(ready, small, space) : small);
    const census = edit ? editCensus(ready, colours, space) : 'census' in colours ? colours.census : colours;
    return offsOf(gauges, measureColours(census, wholeOf(whole, focus), input.intent, space, truth));
  };
  const [before, after] = [measure(false), measure(true)];
  const guessed = tried.try(steps).offs;
  const truly = offsOf(gauges, truth);
  return bias.map((b, k) => {
    const off = truly[k] + (after[k] - before[k]) - guessed[k];
    return Number.isNaN(off) ? b : b + off;
  });
}

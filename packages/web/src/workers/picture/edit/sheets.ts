import {
  type Examination,
  type LightOption,
  lightSheet,
  measuredIn,
  optionAxes,
  optionSheet,
  type ReadingInput,
  type Recipe,
} from '@halflight/engine';

// Apart from the desk, and fetched when they are asked for: the first load is for looking.

/** The picture with each setting of one step. */
export function optionsOf(
  input: ReadingInput,
  recipe: Recipe,
  index: number,
  longSide: number,
  examination: Examination,
): ReturnType<typeof optionSheet> {
  const axes = optionAxes(recipe.steps[index]);
  return optionSheet({ input, recipe, index, ...axes, longSide }, measuredIn(examination));
}

/** The picture in each light of the table. */
export function lightsOf(
  input: ReadingInput,
  recipe: Recipe,
  longSide: number,
  examination: Examination,
): Generator<LightOption, void> {
  return lightSheet(input, recipe, longSide, measuredIn(examination));
}

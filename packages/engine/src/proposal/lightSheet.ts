import type { Recipe } from '../edits/step.ts';
import { lightOf } from '../readings/light/kind.ts';
import { SITUATIONS, type Situation } from '../readings/light/situations.ts';
import type { ReadingInput } from '../readings/reading.ts';
import type { View } from '../views/view.ts';
import { lightParts, turnSteps, turnsTooFar } from './lightTurn.ts';
import type { Measured } from './measured.ts';
import { smallEditor } from './smallEditor.ts';

/** The whole painting in another light. */
export interface LightOption {
  readonly situation: Situation;
  /** The recipe that was given, after the steps that turn the light. */
  readonly recipe: Recipe;
  readonly view: View;
  /** Distance from the intended mood in steps; null when none is intended. */
  readonly distance: number | null;
}

/**
 * The painting in the lights of the table, one by one, but for those it can't be turned to well (`turnsTooFar`);
 * nothing when lit can't be told from shaded (declare the light first). Stop asking to cancel. See
 * `docs/light-sheet.md` for what it can and can't do.
 *
 * @param recipe the present edit; the light is turned before it
 * @param longSide of the small pictures
 */
export function* lightSheet(
  input: ReadingInput,
  recipe: Recipe,
  longSide: number,
  before: Measured,
): Generator<LightOption, void> {
  const parts = lightParts(lightOf(input));
  if (!parts) return;
  const turned = (situation: Situation): Recipe => ({
    ...recipe,
    steps: [...turnSteps(parts, input.intent.light, situation), ...recipe.steps],
  });
  const offered = SITUATIONS.filter((situation) => !turnsTooFar(parts, situation));
  const editor = smallEditor(input, turned(offered[0]), longSide, before);
  for (const situation of offered) {
    const own = turned(situation);
    yield { situation, recipe: own, ...editor(own.steps) };
  }
}

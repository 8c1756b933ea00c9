import type { ColourSpace } from '../colour/space.ts';
import { readyRecipe } from '../edits/compile.ts';
import { editView } from '../edits/editView.ts';
import { stepKind } from '../edits/list.ts';
import { type Recipe, type Step, UNCHANGED } from '../edits/step.ts';
import { reduceView } from '../views/resample.ts';
import type { View } from '../views/view.ts';

/** The shortest time a picture may stand where pictures change by themselves, in milliseconds (WCAG 2.3.1: three a second). */
export const SHORTEST_STAND = 334;

/** Steps of an edit that do something, in their order. */
export function workingSteps({ steps }: Recipe): Step[] {
  return steps.filter(
    (step) => step.on && step.strength > 0 && stepKind(step.kind).kernel(step) !== UNCHANGED,
  );
}

/**
 * The picture as painted and after each step that does something: one view more than there are such steps. Areas are
 * found on the picture as painted, as the edit itself does.
 *
 * @param close the close view of the picture as painted; `space` is what its edit is held in
 * @param side long side of the views
 */
export function editStages(recipe: Recipe, close: View, side: number, space: ColourSpace): View[] {
  const steps = workingSteps(recipe);
  const small = reduceView(close, side);
  const after = steps.map((_, k) =>
    editView(readyRecipe({ ...recipe, steps: steps.slice(0, k + 1) }, close), small, space),
  );
  return [small, ...after];
}

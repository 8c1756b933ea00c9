import type { Recipe, Step } from '@halflight/engine';
import type { Work } from './work.ts';

/**
 * What can be done to the edit of a work. A step is named by its place in the list; `title` is what it was called
 * then, so that undo can say it.
 */
export type RecipeCommand =
  | { readonly kind: 'addStep'; readonly title: string; readonly step: Step }
  | { readonly kind: 'changeStep'; readonly title: string; readonly at: number; readonly step: Step }
  | { readonly kind: 'switchStep'; readonly title: string; readonly at: number; readonly on: boolean }
  | { readonly kind: 'moveStep'; readonly title: string; readonly at: number; readonly to: number }
  | { readonly kind: 'removeStep'; readonly title: string; readonly at: number }
  | { readonly kind: 'takeRecipe'; readonly title: string; readonly recipe: Recipe };

const EMPTY: Recipe = { schema: 'halflight/recipe@1', steps: [] };

/** The edit of a work: empty while there is none. */
export function recipeOf(work: Work): Recipe {
  return work.recipe ?? EMPTY;
}

/** The work after a change of its edit; the same object when the command names a step that is not there. */
export function applyToRecipe(work: Work, command: RecipeCommand): Work {
  const recipe = recipeOf(work);
  if (command.kind === 'takeRecipe') return { ...work, recipe: command.recipe };
  const steps = changed(recipe.steps, command);
  return steps === recipe.steps ? work : { ...work, recipe: { ...recipe, steps } };
}

function changed(
  steps: readonly Step[],
  command: Exclude<RecipeCommand, { kind: 'takeRecipe' }>,
): readonly Step[] {
  if (command.kind === 'addStep') return [...steps, command.step];
  const { at } = command;
  const step = steps[at];
  if (step === undefined) return steps;
  switch (command.kind) {
    case 'changeStep':
      return steps.map((old, index) => (index === at ? command.step : old));
    case 'switchStep':
      return step.on === command.on
        ? steps
        : steps.map((old, index) => (index === at ? { ...old, on: command.on } : old));
    case 'removeStep':
      return steps.filter((_, index) => index !== at);
    case 'moveStep': {
      const to = Math.min(steps.length - 1, Math.max(0, command.to));
      if (to === at) return steps;
      const others = steps.filter((_, index) => index !== at);
      return [...others.slice(0, to), step, ...others.slice(to)];
    }
  }
}

/** What a command did, to follow "undo". */
export function recipeWords(command: RecipeCommand): string {
  const title = `“${command.title}”`;
  switch (command.kind) {
    case 'addStep':
      return `adding ${title}`;
    case 'changeStep':
      return `changing ${title}`;
    case 'switchStep':
      return `switching ${title} ${command.on ? 'on' : 'off'}`;
    case 'moveStep':
      return `moving ${title}`;
    case 'removeStep':
      return `removing ${title}`;
    case 'takeRecipe':
      return command.title;
  }
}

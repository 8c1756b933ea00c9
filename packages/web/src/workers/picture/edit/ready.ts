import {
  type GuideFit,
  type ReadyRecipe,
  type Recipe,
  readyRecipe,
  STEPS,
  type Step,
  stepRunner,
  type View,
} from '@halflight/engine';

/** Areas kept ready beyond those of the recipe in hand: an undo may want them again. */
const KEPT = 12;

/** Makes the recipes of one picture ready. Fitting an area takes long, so that those in use are kept. */
export interface Readier {
  ready(recipe: Recipe): ReadyRecipe;
  /** A name for the areas of a recipe: equal names, equal areas. */
  areasName(recipe: Recipe): string;
}

export function openReadier(close: View): Readier {
  const fits = new Map<string, GuideFit | null>();
  const fitOf = (step: Step): GuideFit | null => {
    if (!works(step) || !step.area) return null;
    const name = JSON.stringify(step.area);
    const known = fits.get(name);
    const fit = known === undefined ? fitted(step, close) : known;
    // The newest last, so that the oldest goes first.
    fits.delete(name);
    fits.set(name, fit);
    if (fits.size > KEPT) for (const old of [...fits.keys()].slice(0, fits.size - KEPT)) fits.delete(old);
    return fit;
  };
  return {
    ready(recipe) {
      const steps = knownSteps(recipe);
      const areas: GuideFit[] = [];
      const covers = steps.map((step) => {
        const fit = fitOf(step);
        return fit ? areas.push(fit) - 1 : null;
      });
      return { areas, edit: stepRunner(steps, covers) };
    },
    areasName: (recipe) =>
      JSON.stringify(knownSteps(recipe).map((step) => (works(step) ? (step.area ?? null) : null))),
  };
}

const knownSteps = ({ steps }: Recipe): readonly Step[] => steps.filter(isKnown);

/** Steps that a newer program wrote are left out. */
function isKnown({ kind }: Step): boolean {
  return STEPS.some(({ id }) => id === kind);
}

const works = (step: Step): boolean => step.on && step.strength > 0;

/** Whether a step changes anything. */
export function counts(step: Step): boolean {
  return isKnown(step) && works(step);
}

function fitted(step: Step, close: View): GuideFit | null {
  const alone: Recipe = { schema: 'halflight/recipe@1', steps: [step] };
  return readyRecipe(alone, close).areas[0] ?? null;
}

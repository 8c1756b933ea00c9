import type { GuideFit } from '../areas/guidedFilter.ts';
import { fitArea } from '../areas/rasterise.ts';
import { linearInto, oklabInto } from '../colour/oklab.ts';
import { reduceView } from '../views/resample.ts';
import type { View } from '../views/view.ts';
import { stepKind } from './list.ts';
import type { Kernel, Recipe, Step } from './step.ts';

/** A step ready to run. */
interface ReadyStep {
  readonly kernel: Kernel;
  readonly strength: number;
  /** Which of the covers says where it works; null everywhere. */
  readonly cover: number | null;
}

/** A recipe ready to run on any number of colours. */
export interface ReadyRecipe {
  /** Areas in the order of their steps: how many covers `edit` wants. */
  readonly areas: readonly GuideFit[];
  /**
   * Edits one colour in place: linear sRGB light, unclipped, at `at`.
   *
   * @param covers cover 0…1 of each area at this place, at `coverAt`
   * @returns false when the colour stayed exactly as it was
   */
  edit(rgb: Float64Array, at: number, covers: ArrayLike<number>, coverAt: number): boolean;
}

/** Long side of the copy on which areas are tied to the edges of the painting. */
const AREA_LONG_SIDE = 1000;

/** Makes a recipe ready; `close` is needed when a step has an area (without it areas are left out). */
export function readyRecipe(recipe: Recipe, close: View | null): ReadyRecipe {
  const small = close && reduceView(close, AREA_LONG_SIDE);
  const areas: GuideFit[] = [];
  const covers = recipe.steps.map((step) => {
    const fit = works(step) && step.area && small ? fitArea(step.area, small) : null;
    return fit ? areas.push(fit) - 1 : null;
  });
  return { areas, edit: stepRunner(recipe.steps, covers) };
}

const works = (step: Step): boolean => step.on && step.strength > 0;

/**
 * Makes steps ready whose areas are known already.
 *
 * @param covers for each step, which of the covers that `edit` is given says where it works; null everywhere
 */
export function stepRunner(steps: readonly Step[], covers: readonly (number | null)[]): ReadyRecipe['edit'] {
  return runner(
    steps.flatMap((step, k) =>
      works(step)
        ? [
            {
              kernel: stepKind(step.kind).kernel(step),
              strength: Math.min(1, step.strength),
              cover: covers[k],
            },
          ]
        : [],
    ),
  );
}

function runner(steps: readonly ReadyStep[]): ReadyRecipe['edit'] {
  const lab = new Float64Array(3);
  return (rgb, at, covers, coverAt) => {
    let changed = false;
    let inLab = false;
    let labChanged = false;
    for (const { kernel, strength, cover } of steps) {
      const amount = cover === null ? strength : strength * covers[coverAt + cover];
      if (amount === 0) continue;
      if (kernel.on === 'oklab') {
        if (!inLab) {
          oklabInto(lab, 0, rgb[at], rgb[at + 1], rgb[at + 2]);
          inLab = true;
        }
        labChanged = kernel.change(lab, 0, amount) || labChanged;
      } else {
        if (inLab && labChanged) linearInto(rgb, at, lab[0], lab[1], lab[2]);
        changed = changed || labChanged;
        inLab = false;
        labChanged = false;
        changed = kernel.change(rgb, at, amount) || changed;
      }
    }
    if (inLab && labChanged) linearInto(rgb, at, lab[0], lab[1], lab[2]);
    return changed || labChanged;
  };
}

import { consistencyOf, type Recipe, towardsSeries, workOfLine } from '@halflight/engine';
import type { PlaceInSet } from './desk.ts';

/** What can be done with the work that is to come in. */
export interface Hands {
  /** The smallest edit against what the set has in common. */
  propose(): Promise<Recipe | null>;
  /** Line of `check` of the edited picture, and how much the edit changes it (mean ΔE_OK). */
  examine(recipe: Recipe): Promise<{ line: string; change: number }>;
}

/**
 * Tries what may bring a work into its set and reads each edited picture again: the one that leaves the least by which
 * the work stands apart is taken, of equal ones that which changes least. Null when none makes it stand less apart.
 */
export async function bringIntoSet(
  { works, at }: PlaceInSet,
  { propose, examine }: Hands,
): Promise<{ recipe: Recipe; still: string[] } | null> {
  const apart = (all: PlaceInSet['works']): string[] =>
    consistencyOf(all).off.flatMap(({ work, text }) => (work === at ? [text] : []));
  let best: { recipe: Recipe; still: string[]; change: number } | null = null;
  let least = apart(works).length;
  for (const make of [async () => towardsSeries(works, at), propose]) {
    const recipe = await make();
    if (recipe === null || recipe.steps.length === 0) continue;
    const { line, change } = await examine(recipe);
    const now = workOfLine(line);
    if (now === null) continue;
    const still = apart(works.map((work, k) => (k === at ? now : work)));
    if (still.length < least || (best && still.length === least && change < best.change)) {
      best = { recipe, still, change };
      least = still.length;
    }
    if (least === 0) break;
  }
  return best;
}

import type { ColourSpace } from '../colour/space.ts';
import type { Step } from '../edits/step.ts';
import type { ReadingId } from '../readings/reading.ts';
import { reduceView } from '../views/resample.ts';
import type { View } from '../views/view.ts';
import { recipeOf } from './slots.ts';
import type { ProposalRequest } from './types.ts';
import { readEdited, type Seen, worsened } from './verify.ts';

/** Long side of the copy on which the step at fault is looked for. */
const LOOK_SIDE = 600;
/** What a step at fault is weakened to before it is dropped. */
const WEAKER = 0.5;

/**
 * Weakens or drops steps until the edited pixels show no finding that is worse than it was.
 *
 * The step at fault is the one without which the trouble is smallest; it is looked for on a small copy with only the
 * readings that complained, and what is left is read in full again.
 */
export function* weaken(
  request: ProposalRequest,
  steps: readonly (Step | null)[],
  first: Seen,
  space: ColourSpace,
): Generator<number, { steps: readonly (Step | null)[]; seen: Seen }> {
  let small: View | null = null;
  let kept = steps;
  let seen = first;
  for (let done = 0; kept.some((step) => step !== null); done += (1 - done) / 2) {
    const worse = worsened(request, seen);
    if (worse.length === 0) break;
    const only = new Set<ReadingId>(worse.map((f) => f.reading));
    small ??= reduceView(request.input.views.middle, LOOK_SIDE);
    const look = small;
    const trouble = function* (tried: readonly (Step | null)[]): Generator<number, number> {
      const looked = yield* readEdited(request, recipeOf(tried), space, look, only);
      // Readings that were not made again stay as they were seen.
      const others = seen.findings.filter((f) => !only.has(f.reading));
      return worsened(request, { ...looked, findings: [...others, ...looked.findings] }).reduce(
        (sum, f) => sum + f.severity,
        0,
      );
    };
    let best: { steps: readonly (Step | null)[]; trouble: number } | null = null;
    for (let k = 0; k < kept.length; k++) {
      const step = kept[k];
      if (!step) continue;
      const without = kept.map((s, j) => (j === k ? null : s));
      const dropped = yield* hidden(trouble(without), done);
      if (best && dropped >= best.trouble) continue;
      best = { steps: without, trouble: dropped };
      if (step.strength < 1) continue;
      const half = kept.map((s, j) => (j === k && s ? { ...s, strength: WEAKER } : s));
      const weaker = yield* hidden(trouble(half), done);
      if (weaker <= dropped) best = { steps: half, trouble: weaker };
    }
    kept = best!.steps;
    seen = yield* hidden(readEdited(request, recipeOf(kept), space), done);
  }
  return { steps: kept, seen };
}

/** Keeps the progress where it is, but lets the caller in. */
function* hidden<T>(work: Generator<number, T>, at: number): Generator<number, T> {
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
    yield at;
  }
}

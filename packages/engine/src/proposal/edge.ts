import type { ColourSpace } from '../colour/space.ts';
import { stepKind } from '../edits/list.ts';
import type { Step } from '../edits/step.ts';
import { measuredIn } from './measured.ts';
import { type Objective, offsOf, type Trial } from './objective.ts';
import { recipeOf } from './slots.ts';
import type { TrueUp } from './trueUp.ts';
import type { ProposalRequest } from './types.ts';
import { readEdited, type Seen, worsened } from './verify.ts';

/** What is left no farther above its threshold than this was missed by the guess alone; 1 weighs heavily. */
const EDGE = 0.25;
/** From here on it lies clearly below. */
const CLEAR = -0.03;
/** What a finding that is left costs beside how far it is off: nobody wants to read of a hair's breadth. Our default. */
const LEFT = 0.02;
/** A number goes this share farther at once, or one unit of what is shown. */
const FARTHER = 0.12;
/** Most pushes of one proposal. */
const PUSHES = 4;

interface Edited {
  readonly steps: readonly (Step | null)[];
  readonly seen: Seen;
}

/**
 * Pushes a recipe on where the readings of the pixels leave a finding just above its threshold: one number after the
 * other goes a little farther, the one that costs least first, held against the picture's own colours and not against
 * the sample, which no longer tells anything so near to the edge. The steps stay as they are where that brings less.
 */
export function* pastTheEdge(
  request: ProposalRequest,
  tried: Objective,
  trueUp: TrueUp,
  steps: readonly (Step | null)[],
  seen: Seen,
  space: ColourSpace,
): Generator<number, Edited> {
  const asIs = { steps, seen };
  const offs = offsOf(tried.gauges, measuredIn(seen));
  const near = [...offs.keys()].filter((k) => tried.open[k] && offs[k] > 0 && offs[k] < EDGE);
  if (near.length === 0) return asIs;
  const truly = (of: readonly (Step | null)[]): Trial => tried.try(of, trueUp(of));
  const price = ({ cost, offs: of }: Trial): number =>
    cost + LEFT * of.filter((t, k) => tried.open[k] && t > CLEAR).length;
  let best = { steps, trial: truly(steps) };
  for (let push = 0; push < PUSHES; push++) {
    if (near.every((k) => best.trial.offs[k] < CLEAR)) break;
    const from = best;
    for (const farther of pushed(tried, from.steps)) {
      yield (0.5 * push) / PUSHES;
      const trial = truly(farther);
      if (price(trial) < price(best.trial) && near.some((k) => trial.offs[k] < from.trial.offs[k]))
        best = { steps: farther, trial };
    }
    if (best === from) break;
  }
  if (best.steps === steps) return asIs;
  yield 0.5;
  const next: Edited = { steps: best.steps, seen: yield* readEdited(request, recipeOf(best.steps), space) };
  return isNearer(request, tried, next.seen, seen) ? next : asIs;
}

/** The recipe with one of its numbers a little farther from nothing, for each number. */
function pushed({ slots }: Objective, steps: readonly (Step | null)[]): (Step | null)[][] {
  return steps.flatMap((step, k) => {
    if (!step) return [];
    return slots[k].unknowns.flatMap(({ key, from, to }) => {
      const { neutral, digits } = stepKind(step.kind).parameters.find((p) => p.key === key)!;
      const value = step.values[key] ?? neutral;
      const way = value - neutral;
      if (way === 0) return [];
      const unit = 10 ** -digits;
      const far = value + Math.sign(way) * Math.max(unit, FARTHER * Math.abs(way));
      const next = Number(Math.min(to, Math.max(from, far)).toFixed(digits));
      if (next === value) return [];
      return [steps.map((s, j) => (j === k ? { ...step, values: { ...step.values, [key]: next } } : s))];
    });
  });
}

/** Fewer findings left, or as many that are smaller together, and none worse. */
function isNearer(request: ProposalRequest, { gauges, open }: Objective, next: Seen, seen: Seen): boolean {
  if (worsened(request, next).length > worsened(request, seen).length) return false;
  const left = (of: Seen): { count: number; sum: number } => {
    const above = [...offsOf(gauges, measuredIn(of))].filter((t, k) => open[k] && t > 0);
    return { count: above.length, sum: above.reduce((a, t) => a + t, 0) };
  };
  const [now, was] = [left(next), left(seen)];
  return now.count < was.count || (now.count === was.count && now.sum < was.sum);
}

import { accent } from './kinds/accent.ts';
import { calmStrays } from './kinds/calmStrays.ts';
import { chroma } from './kinds/chroma.ts';
import { contrast } from './kinds/contrast.ts';
import { exposure } from './kinds/exposure.ts';
import { gatherHues } from './kinds/gatherHues.ts';
import { hueTurn } from './kinds/hueTurn.ts';
import { match } from './kinds/match.ts';
import { openEnds } from './kinds/openEnds.ts';
import { relight } from './kinds/relight.ts';
import { valueGroups } from './kinds/valueGroups.ts';
import { veil } from './kinds/veil.ts';
import { warmth } from './kinds/warmth.ts';
import type { StepId, StepKind } from './step.ts';

/** Every kind of step, in the order in which they are offered. One line here makes a step appear everywhere. */
export const STEPS: readonly StepKind[] = [
  gatherHues,
  calmStrays,
  openEnds,
  valueGroups,
  exposure,
  contrast,
  chroma,
  hueTurn,
  warmth,
  relight,
  veil,
  accent,
  match,
];

/** The kind of a step. Throws RangeError for a name that is none. */
export function stepKind(id: StepId): StepKind {
  const kind = STEPS.find((k) => k.id === id);
  if (!kind) throw new RangeError(`no step is called “${id}”`);
  return kind;
}

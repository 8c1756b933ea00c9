import { STEPS, type StepKind } from '@halflight/engine';
import { useState } from 'react';
import { recipeOf } from '../../document/recipe.ts';
import type { Work } from '../../document/work.ts';
import { perform } from '../../state/edit.ts';
import { say, set, useSession } from '../../state/session.ts';
import { askFor } from './ask.ts';
import { firstStep } from './needs.ts';

/** Every kind of step as a word; what it does is told when it is pointed at. */
export function AddStep({ work }: { work: Work }) {
  const [pointed, setPointed] = useState<StepKind | null>(null);
  const seen = useSession((session) => session.seen);
  const count = recipeOf(work).steps.length;
  const add = (kind: StepKind): void => {
    const { step, missing } = firstStep(kind, { intent: work.intent, seen });
    const put = (data: typeof step.data): void => {
      perform({ kind: 'addStep', title: kind.title, step: data ? { ...step, data } : step });
      set({ openNote: `step ${count}` });
      say(`Added: ${kind.title}.`);
    };
    if (missing.length === 0) put(step.data);
    else askFor(kind.id, put);
  };
  return (
    <details className="group add-step" open={count === 0}>
      <summary>Add a step</summary>
      {/* biome-ignore lint/a11y/useSemanticElements: words in running text, no form */}
      <p className="words" role="group" aria-label="Kinds of steps" onPointerLeave={() => setPointed(null)}>
        {STEPS.map((kind) => (
          <button
            key={kind.id}
            type="button"
            className="word"
            onPointerEnter={() => setPointed(kind)}
            onFocus={() => setPointed(kind)}
            onBlur={() => setPointed(null)}
            onClick={() => add(kind)}
          >
            {kind.title.toLowerCase()}
          </button>
        ))}
      </p>
      <p className="caption quiet word-sentence">
        {pointed?.about ?? 'Press a word to add that step at the end. The picture itself is never changed.'}
      </p>
    </details>
  );
}

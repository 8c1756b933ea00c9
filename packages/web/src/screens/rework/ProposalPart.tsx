import { countWord } from '@halflight/engine';
import { recipeOf } from '../../document/recipe.ts';
import type { Work } from '../../document/work.ts';
import { beginTask } from '../../parts/stage/task.ts';
import { Waiting } from '../../parts/Waiting.tsx';
import { proposeEdit, protect, stopProposing, useProposal } from '../../state/proposal.ts';
import { say, useSession } from '../../state/session.ts';

/** The smallest edit for the open notes, on a press; what it can't repair is said. */
export function ProposalPart({ work }: { work: Work }) {
  const { running, made } = useProposal();
  const writable = useSession((session) => session.writable);
  const proposal = made?.work === work.id ? made.proposal : null;
  const anew = recipeOf(work).steps.length > 0;
  return (
    <section className="proposal" aria-label="Proposal">
      {running ? (
        <Waiting what="Looking for the smallest edit" progress={running} onStop={stopProposing} />
      ) : (
        writable && (
          <>
            <p>
              <button type="button" className="answer" onClick={() => void proposeEdit()}>
                {anew ? 'propose anew' : 'propose the smallest edit'}
              </button>
            </p>
            <p className="caption quiet">
              {anew
                ? 'A new proposal replaces these steps; undo brings them back.'
                : 'The smallest change that meets the open notes. Each step can be weakened or removed.'}
            </p>
            <Protected count={recipeOf(work).kept?.length ?? 0} />
          </>
        )
      )}
      {proposal && !running && (
        <>
          <p>{proposal.summary}</p>
          {proposal.mustRepaint.length > 0 && (
            <details className="group" open>
              <summary>What must be repainted</summary>
              <ul className="after-notes">
                {proposal.mustRepaint.map(({ finding, why }) => (
                  <li key={finding.key}>
                    {finding.text} {why}
                  </li>
                ))}
              </ul>
            </details>
          )}
        </>
      )}
    </section>
  );
}

/** Places that no proposal touches. */
function Protected({ count }: { count: number }) {
  const draw = (): void => {
    const words = 'Draw around what no proposal may touch, or tap corner after corner and close the outline.';
    say(words);
    beginTask({ kind: 'outline', words, done: protect });
  };
  return (
    <p className="caption">
      {count === 0
        ? 'It may touch everything; '
        : `It leaves ${count === 1 ? 'one place' : `${countWord(count)} places`} alone; `}
      <button type="button" className="clause" onClick={draw}>
        {count === 0 ? 'draw what it must leave alone' : 'draw another'}
      </button>
      {count > 0 && (
        <>
          {' '}
          or{' '}
          <button type="button" className="clause" onClick={() => protect(null)}>
            protect nothing
          </button>
        </>
      )}
      .
    </p>
  );
}

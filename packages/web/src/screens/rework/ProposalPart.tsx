import { recipeOf } from '../../document/recipe.ts';
import type { Work } from '../../document/work.ts';
import { Waiting } from '../../parts/Waiting.tsx';
import { proposeEdit, stopProposing, useProposal } from '../../state/proposal.ts';
import { useSession } from '../../state/session.ts';

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

import { proxy } from 'comlink';
import { useState } from 'react';
import { Waiting } from '../../../parts/Waiting.tsx';
import { Stopped } from '../../../picture/client.ts';
import type { Progress } from '../../../picture/desk.ts';
import type { ClassWork, Critique } from '../../../state/class-document.ts';
import { fileOf, keepEdited } from '../../../state/class-files.ts';
import { classWorker, presentClass } from '../../../state/class-store.ts';
import { say, trouble } from '../../../state/session.ts';
import { change } from './saying.ts';

/** The proposed edit, attached to the critique as before and after. */
export function EditPart({ work, critique }: { work: ClassWork; critique: Critique }) {
  const [running, setRunning] = useState<Progress | null>(null);
  const [nothing, setNothing] = useState<string | null>(null);
  const { proposal } = critique;

  const propose = async (): Promise<void> => {
    setNothing(null);
    setRunning({ doing: 'Reading the picture', share: null });
    try {
      const file = await fileOf(work);
      const { intent } = presentClass();
      const { edit, summary } = await classWorker.run((desk) =>
        desk.propose(
          file,
          intent,
          proxy((progress: Progress) => setRunning((old) => old && progress)),
        ),
      );
      if (edit === null) {
        setNothing(summary || 'No edit helps here: it wants to be repainted, or left.');
        return;
      }
      const { after, ...rest } = edit;
      const picture = `${work.id}-${crypto.randomUUID().slice(0, 8)}`;
      await keepEdited(picture, after);
      change(work.id, 'attaching the edit', (it) => ({ ...it, proposal: { ...rest, picture } }));
      say('The edit is attached as before and after.');
    } catch (error) {
      if (!(error instanceof Stopped))
        trouble('reading', `No edit could be proposed: ${(error as Error).message}`);
    } finally {
      setRunning(null);
    }
  };

  if (running)
    return (
      <Waiting what="Looking for the smallest edit" progress={running} onStop={() => classWorker.stop()} />
    );
  if (proposal)
    return (
      <>
        <p>{proposal.summary}</p>
        <ol className="edit-steps">
          {proposal.steps.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ol>
        <p>
          It stands on the page as before and after.{' '}
          <button
            type="button"
            className="clause"
            onClick={() =>
              change(work.id, 'leaving the edit out', ({ proposal: _proposal, ...rest }) => rest)
            }
          >
            Leave it out
          </button>
          .
        </p>
      </>
    );
  return (
    <p>
      {nothing ? `${nothing} ` : 'Show what a small edit would do: '}
      <button type="button" className="clause" onClick={() => void propose()}>
        {nothing ? 'Look again' : 'propose one and attach it as before and after'}
      </button>
      .
    </p>
  );
}

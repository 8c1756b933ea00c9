import type { Outcome } from '@halflight/engine';
import { countWord, listOf, sentence } from '@halflight/engine';
import { go } from '../../app/route.ts';
import { type Answer, currentVersion, type Work } from '../../document/work.ts';
import { changeWords } from '../../parts/change.ts';
import { keepGlance, leaveGlance } from '../../state/next.ts';
import { useSession } from '../../state/session.ts';

/** What became of the work since the version before: above the notes, while there is something to say. */
export function SinceBefore({ work }: { work: Work }) {
  const glance = useSession((session) => session.glance);
  const newest = currentVersion(work);
  const change = newest.change;
  const answered = work.answers.filter(
    ({ kind, outcome }) => kind === 'willDo' && outcome?.version === newest.number,
  );
  if (!glance && !change && answered.length === 0) return null;
  return (
    <section className="since" aria-label="Since the version before">
      {glance && <Kept number={newest.number} what={glance.pasted ? 'paste' : 'picture'} />}
      {change && (
        <p>
          Since version {change.from}: {changeWords(change)}{' '}
          {!glance && (
            <button
              type="button"
              className="clause"
              onClick={() => go({ screen: 'progress', work: work.id })}
            >
              What and where
            </button>
          )}
        </p>
      )}
      {glance && !change && (
        <p>Nothing of version {newest.number - 1} is seen in it: areas and answers lie where they were.</p>
      )}
      {answered.length > 0 && <Answered answers={answered} />}
    </section>
  );
}

/** A picture is read and not kept: what can become of it. */
function Kept({ number, what }: { number: number; what: string }) {
  return (
    <p>
      This {what} is read, not kept:{' '}
      <button type="button" className="clause" onClick={() => void keepGlance()}>
        keep it as version {number}
      </button>
      ,{' '}
      <button type="button" className="clause" onClick={() => void leaveGlance(false)}>
        go back to version {number - 1}
      </button>
      , or{' '}
      <button type="button" className="clause" onClick={() => void leaveGlance(true)}>
        forget it
      </button>
      . Answers and edits wait until it is kept.
    </p>
  );
}

const WORDS: Record<Outcome, string> = { gone: 'gone', smaller: 'smaller', still: 'still there' };

/** What this version says to everything that was to be done. */
function Answered({ answers }: { answers: readonly Answer[] }) {
  const counts = (['gone', 'smaller', 'still'] as const).flatMap((state) => {
    const count = answers.filter(({ outcome }) => outcome?.state === state).length;
    return count > 0 ? [`${countWord(count)} ${count === 1 ? 'is' : 'are'} ${WORDS[state]}`] : [];
  });
  const things = answers.length === 1 ? 'one thing' : `${countWord(answers.length)} things`;
  return (
    <details className="group" open>
      <summary>
        You meant to do {things}:{' '}
        {answers.length === 1 ? `it is ${WORDS[stateOf(answers[0])]}` : listOf(counts)}.
      </summary>
      <ul className="outcomes">
        {answers.map((answer) => (
          <li key={`${answer.key} ${answer.outline ?? ''}`}>
            {answer.sentence} <span className="quiet">{sentence(WORDS[stateOf(answer)])}.</span>
          </li>
        ))}
      </ul>
    </details>
  );
}

const stateOf = (answer: Answer): Outcome => answer.outcome?.state ?? 'still';

import { countWord, sentence } from '@halflight/engine';
import { go } from '../../app/route.ts';
import { currentVersion, type Work } from '../../document/work.ts';
import { when } from '../../parts/when.ts';
import type { Seen } from '../../picture/desk.ts';
import { perform } from '../../state/edit.ts';
import { useSession } from '../../state/session.ts';

/** The decision that it is done, which is the artist's: what still stands, what was meant so, the last look. */
export function DonePart({ work, seen }: { work: Work; seen: Seen | null }) {
  const writable = useSession((session) => session.writable);
  const { decision } = work;
  if (decision) {
    return (
      <div className="done-part">
        <p className="lead">
          Decided on {dateOf(decision.at)}, at version {decision.version}.
        </p>
        {decision.version !== currentVersion(work).number && (
          <p>Version {currentVersion(work).number} came after that.</p>
        )}
        {decision.standing.length > 0 && <List lead="This still stood then:" items={decision.standing} />}
        {writable && (
          <p>
            <button type="button" className="answer" onClick={() => perform({ kind: 'reopen' })}>
              Take it up again
            </button>
          </p>
        )}
      </div>
    );
  }
  const standing = seen?.findings.map(({ text }) => text) ?? [];
  const meant = work.answers.filter(({ kind }) => kind === 'meantSo');
  const look = work.looks.at(-1);
  const { number } = currentVersion(work);
  return (
    <div className="done-part">
      {seen && standing.length === 0 && <p>No note is open.</p>}
      {standing.length > 0 && (
        <List
          lead={
            standing.length === 1
              ? 'One note still stands:'
              : `${sentence(countWord(standing.length))} notes still stand:`
          }
          items={standing}
        />
      )}
      {meant.length > 0 && (
        <List
          lead="Meant so:"
          items={meant.map(({ sentence, reason }) => (reason ? `${sentence} Because ${reason}.` : sentence))}
        />
      )}
      <p>
        {look ? (
          <>
            The last look was {when(look.at)}, at version {look.version}
            {look.version === number ? '.' : ', not at this one.'}
          </>
        ) : (
          'Nobody has taken a quiet look yet.'
        )}{' '}
        {look?.version !== number && (
          <button type="button" className="clause" onClick={() => go({ screen: 'standback', work: work.id })}>
            Stand back first
          </button>
        )}
      </p>
      {writable && (
        <p>
          <button
            type="button"
            className="answer"
            disabled={seen === null}
            onClick={() =>
              perform({
                kind: 'callDone',
                decision: { at: new Date().toISOString(), version: number, standing },
              })
            }
          >
            It is done
          </button>
        </p>
      )}
      <p className="quiet">The decision is yours alone, with or without open notes; it can be taken back.</p>
    </div>
  );
}

function List({ lead, items }: { lead: string; items: readonly string[] }) {
  return (
    <>
      <p>{lead}</p>
      <ul className="outcomes quiet">
        {items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ul>
    </>
  );
}

function dateOf(iso: string): string {
  return new Date(iso).toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year: 'numeric' });
}

import { go } from '../app/route.ts';
import { currentVersion, type Work } from '../document/work.ts';
import { useSession } from '../state/session.ts';
import { capital, intentClause } from './clauses.ts';

/** The line above the picture: what it is, and what was decided for it. */
export function Headline({ work }: { work: Work }) {
  const screen = useSession((session) => session.route.screen);
  const { words } = work.intent.mood ?? {};
  const decided = words?.length ? words.join(', ') : null;
  return (
    <header className="headline">
      <h1>
        {work.title} · version {currentVersion(work).number}
      </h1>
      {screen === 'intent' ? (
        <p>{decided ? `intent: ${decided}` : capital(intentClause(work))}</p>
      ) : (
        <button type="button" className="clause" onClick={() => go({ screen: 'intent', work: work.id })}>
          {decided ? `intent: ${decided}` : intentClause(work)}
        </button>
      )}
    </header>
  );
}

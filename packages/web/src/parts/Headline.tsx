import { sentence } from '@halflight/engine';
import { useState } from 'react';
import { go } from '../app/route.ts';
import { currentVersion, type Work } from '../document/work.ts';
import { perform } from '../state/edit.ts';
import { useSession } from '../state/session.ts';
import { intentClause } from './clauses.ts';

/** The line above the picture: what it is, and what was decided for it. */
export function Headline({ work }: { work: Work }) {
  const screen = useSession((session) => session.route.screen);
  const { words } = work.intent.mood ?? {};
  const decided = words?.length ? words.join(', ') : null;
  return (
    <header className="headline">
      <Title work={work} />
      {screen === 'intent' ? (
        <p>{decided ? `intent: ${decided}` : sentence(intentClause(work))}</p>
      ) : (
        <button type="button" className="clause" onClick={() => go({ screen: 'intent', work: work.id })}>
          {decided ? `intent: ${decided}` : intentClause(work)}
        </button>
      )}
    </header>
  );
}

/** The title; a press on it opens it for writing. */
function Title({ work }: { work: Work }) {
  const [text, setText] = useState<string | null>(null);
  const writable = useSession((session) => session.writable);
  const glance = useSession((session) => session.glance);
  const { number } = currentVersion(work);
  const unkept = glance?.pasted ? 'a paste' : 'a picture that is not kept,';
  const version = glance ? ` · ${unkept} after version ${number - 1}` : ` · version ${number}`;
  const keep = (): void => {
    const title = text?.trim();
    if (title) perform({ kind: 'rename', title });
    setText(null);
  };
  if (text !== null) {
    return (
      <h1>
        <input
          // biome-ignore lint/a11y/noAutofocus: the field appears because the title was pressed
          autoFocus
          className="title-field"
          aria-label="Title of this work"
          value={text}
          onChange={(event) => setText(event.target.value)}
          onBlur={keep}
          onKeyDown={(event) => {
            if (event.key === 'Enter') keep();
            else if (event.key === 'Escape') setText(null);
            else return;
            event.preventDefault();
            event.stopPropagation();
          }}
        />
      </h1>
    );
  }
  return (
    <h1>
      {writable ? (
        <button
          type="button"
          className="clause plain"
          title="Change the title"
          onClick={() => setText(work.title)}
        >
          {work.title}
        </button>
      ) : (
        work.title
      )}
      {version}
    </h1>
  );
}

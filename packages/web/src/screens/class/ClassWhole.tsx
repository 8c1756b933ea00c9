import { countWord, sentence } from '@halflight/engine';
import { Fragment, useState } from 'react';
import { go } from '../../app/route.ts';
import { intentClause } from '../../parts/clauses.ts';
import { Frame } from '../../parts/Frame.tsx';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { NotesPart } from '../../parts/NotesPart.tsx';
import { clearClass, performOnClass, redoClass, undoClass, useClass } from '../../state/class.ts';
import type { ClassDocument, ClassWork } from '../../state/class-document.ts';
import { isRead } from '../../state/class-reading.ts';
import { ClassReading } from './ClassReading.tsx';
import { ClassWall, SHARED } from './ClassWall.tsx';
import { ClassComings } from './Comings.tsx';
import { KeptText } from './KeptText.tsx';
import { PagesNote } from './PagesNote.tsx';
import { SeriesNote } from './SeriesNote.tsx';
import {
  type Plane,
  planeOf,
  type ReadEntry,
  readEntries,
  type SharedFinding,
  sharedFindings,
} from './statistics.ts';
import { lookAt, useClassView } from './view.ts';
import { calledOf, worksWord } from './words.ts';

/** The class as a whole: its works on the wall, what they share, and what is given back, in the margin. */
export function ClassWhole({ now }: { now: ClassDocument }) {
  const { readings, writable, measures } = useClass();
  const { across, up } = useClassView();
  const entries = readEntries(now, readings);
  const shared = sharedFindings(entries).filter(({ works }) => works.length > 1);
  const plane = planeOf(entries, measures, across, up);
  const unread = now.works.flatMap(({ id }) => {
    const reading = readings[id];
    return reading && !isRead(reading) ? [{ id, text: reading.trouble }] : [];
  });
  return (
    <Frame
      wall={<ClassWall now={now} />}
      margin={
        <>
          <NotesPart title="Class">
            {!writable && (
              <p className="remark">
                This class is open in another window, which keeps it. Here you can look; close it there and
                load this page again to go on here.
              </p>
            )}
            {now.works.length === 0 ? (
              <p className="quiet">What the works share, and who stands alone, will stand here.</p>
            ) : (
              <>
                <p className="lead">{countSentence(now, entries.length, unread.length)}</p>
                <ClassReading />
                <ViewSentence now={now} plane={plane} entries={entries} />
                <ul className="notes">
                  {shared.map((it) => (
                    <SharedNote key={it.key} shared={it} />
                  ))}
                  <AssignmentNote now={now} />
                  <SeriesNote now={now} entries={entries} />
                  <PagesNote now={now} entries={entries} shared={shared} plane={plane} />
                </ul>
                <Unread unread={unread} />
              </>
            )}
          </NotesPart>
          <section className="rest-part" aria-label="The way around">
            <ClassWay now={now} />
          </section>
        </>
      }
    />
  );
}

function countSentence({ works }: ClassDocument, read: number, unread: number): string {
  const all = works.length;
  const parts = [`${sentence(worksWord(all))} ${all === 1 ? 'is' : 'are'} here`];
  if (read < all - unread) parts.push(`${countWord(read)} ${read === 1 ? 'is' : 'are'} read`);
  if (unread > 0) parts.push(`${countWord(unread)} could not be read`);
  return `${parts.join('; ')}.`;
}

/** How the works are looked at, as a sentence whose words change it. */
function ViewSentence({
  now,
  plane,
  entries,
}: {
  now: ClassDocument;
  plane: Plane;
  entries: readonly ReadEntry[];
}) {
  const alone = plane.alone.map((place) => entries[place].work);
  const without = entries.filter((_, place) => plane.places[place] === null).map(({ work }) => work);
  const { measures } = useClass();
  const { shown, across, up } = useClassView();
  const axes: object = now.intent.mood?.axes ?? {};
  const bands = [across, up].some((name) => name.replace(/^mood\./, '') in axes);
  const choose = (label: string, value: string, onChoose: (name: string) => void) => (
    <select
      className="clause"
      aria-label={label}
      value={value}
      onChange={(event) => onChoose(event.target.value)}
    >
      {measures.map(({ name, label: words }) => (
        <option key={name} value={name}>
          {words}
        </option>
      ))}
    </select>
  );
  return (
    <p>
      They{' '}
      <select
        className="clause"
        aria-label="How the works are shown"
        value={shown}
        onChange={(event) => lookAt({ shown: event.target.value as typeof shown })}
      >
        <option value="plane">lie on a plane</option>
        <option value="findings">stand by what was found</option>
        <option value="list">stand in a list</option>
      </select>
      {shown === 'plane' && (
        <>
          : to the right by {choose('Reading to the right', across, (name) => lookAt({ across: name }))},
          upwards by {choose('Reading upwards', up, (name) => lookAt({ up: name }))}
        </>
      )}
      .{shown === 'plane' && bands && ' The bands are what was asked for.'}
      {shown === 'plane' && alone.length > 0 && (
        <>
          {' '}
          <WorkClauses works={alone} /> {alone.length === 1 ? 'stands' : 'stand'} alone there.
        </>
      )}
      {shown === 'plane' && without.length > 0 && (
        <>
          {' '}
          <WorkClauses works={without} /> {without.length === 1 ? 'has' : 'have'} no number there that could
          be told.
        </>
      )}
    </p>
  );
}

function SharedNote({ shared }: { shared: SharedFinding }) {
  const { key, text, todo, works } = shared;
  return (
    <NoteFrame name={SHARED + key} sentence={text} aside={sentence(worksWord(works.length))}>
      <p className="todo">{todo}</p>
      <p>
        <WorkClauses works={works} />.
      </p>
    </NoteFrame>
  );
}

/** Works by their names, each leading to its critique. */
export function WorkClauses({ works }: { works: readonly ClassWork[] }) {
  return works.map((work, index) => (
    <Fragment key={work.id}>
      {index > 0 && (index === works.length - 1 ? ' and ' : ', ')}
      <button type="button" className="clause" onClick={() => go({ screen: 'class', of: work.id })}>
        {calledOf(work)}
      </button>
    </Fragment>
  ));
}

function AssignmentNote({ now }: { now: ClassDocument }) {
  const about = (change: Partial<ClassDocument>, words: string): void =>
    performOnClass({ kind: 'about', words, about: change });
  return (
    <NoteFrame
      name="assignment"
      sentence={now.assignment ? `Asked for: ${now.assignment}` : 'What was asked for is not written down.'}
      aside={sentence(intentClause(now))}
    >
      <KeptText
        label="Name of the class"
        value={now.title}
        onKeep={(title) => title && about({ title }, 'the name of the class')}
      />
      <KeptText
        label="What was asked for, one sentence"
        value={now.assignment}
        rows={2}
        placeholder="One light, two hue families, one place that matters."
        onKeep={(assignment) => about({ assignment }, 'what was asked for')}
      />
      <KeptText label="Who speaks on the pages" value={now.by} onKeep={(by) => about({ by }, 'who speaks')} />
      <p>
        <button type="button" className="clause" onClick={() => go({ screen: 'class', of: 'intent' })}>
          Decide its mood, light and hues
        </button>
        : every work is then read against them.
      </p>
    </NoteFrame>
  );
}

function Unread({ unread }: { unread: readonly { id: string; text: string }[] }) {
  if (unread.length === 0) return null;
  return (
    <details className="group" open>
      <summary>
        {unread.length === 1
          ? 'One file could not be read.'
          : `${sentence(countWord(unread.length))} files could not be read.`}
      </summary>
      <ul className="unread">
        {unread.map(({ id, text }) => (
          <li key={id}>
            {text}{' '}
            <button
              type="button"
              className="clause caption"
              onClick={() => performOnClass({ kind: 'remove', words: 'leaving a file out', id })}
            >
              leave it out<span className="unseen">: {text}</span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** The end of the margin: what else can be done, and where to go. */
function ClassWay({ now }: { now: ClassDocument }) {
  const [asking, setAsking] = useState(false);
  return (
    <nav className="way" aria-label="The way around">
      <p>
        <ClassComings lead="Add" />.
      </p>
      <UndoSentence />
      {now.works.length > 0 &&
        (asking ? (
          <p>
            Files, readings and everything that was said go for good; save the pages first.{' '}
            <button
              type="button"
              className="clause"
              onClick={() => {
                setAsking(false);
                void clearClass();
              }}
            >
              Put it away
            </button>
            , or{' '}
            <button type="button" className="clause" onClick={() => setAsking(false)}>
              keep it
            </button>
            .
          </p>
        ) : (
          <p>
            <button type="button" className="clause" onClick={() => setAsking(true)}>
              Put this class away
            </button>
            .
          </p>
        ))}
      <p>
        <button type="button" className="clause" onClick={() => go({ screen: 'shelf' })}>
          The shelf
        </button>
        .
      </p>
    </nav>
  );
}

/** What can be undone and done again in the class. */
export function UndoSentence() {
  const history = useClass((state) => state.history);
  const undoable = history?.done.at(-1)?.words;
  const redoable = history?.undone.at(-1)?.words;
  if (!undoable && !redoable) return null;
  return (
    <p>
      {undoable && (
        <button type="button" className="clause" onClick={undoClass}>
          Undo {undoable}
        </button>
      )}
      {undoable && redoable && ', or '}
      {redoable && (
        <button type="button" className="clause" onClick={redoClass}>
          {undoable ? 'redo' : 'Redo'} {redoable}
        </button>
      )}
      .
    </p>
  );
}

import { countWord, sentence } from '@halflight/engine';
import { Frame } from '../../parts/Frame.tsx';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { NotesPart } from '../../parts/NotesPart.tsx';
import { performOnClass } from '../../state/class.ts';
import type { ClassDocument } from '../../state/class-document.ts';
import { isRead } from '../../state/class-reading.ts';
import { useClass } from '../../state/class-store.ts';
import { AssignmentNote } from './AssignmentNote.tsx';
import { ClassReading } from './ClassReading.tsx';
import { ClassWall, SHARED } from './ClassWall.tsx';
import { ClassWay } from './ClassWay.tsx';
import { PagesNote } from './PagesNote.tsx';
import { SeriesNote } from './SeriesNote.tsx';
import { planeOf, readEntries, type SharedFinding, sharedFindings } from './statistics.ts';
import { ViewSentence } from './ViewSentence.tsx';
import { useClassView } from './view.ts';
import { WorkClauses } from './WorkClauses.tsx';
import { worksWord } from './words.ts';

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
  if (read === 0) parts.push('none is read yet');
  else if (read < all - unread) parts.push(`${countWord(read)} ${read === 1 ? 'is' : 'are'} read`);
  if (unread > 0) parts.push(`${countWord(unread)} could not be read`);
  return `${parts.join('; ')}.`;
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

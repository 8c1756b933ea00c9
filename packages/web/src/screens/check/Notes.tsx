import { countWord, listOf, sentence } from '@halflight/engine';
import { go } from '../../app/route.ts';
import type { Work } from '../../document/work.ts';
import { Cautions } from '../../parts/Cautions.tsx';
import { Troubles } from '../../parts/Troubles.tsx';
import { Waiting } from '../../parts/Waiting.tsx';
import { WayAround } from '../../parts/WayAround.tsx';
import type { OpenedPicture, Seen, SeenReading } from '../../picture/desk.ts';
import { stopReading } from '../../state/open.ts';
import { useSession } from '../../state/session.ts';
import { CopyNumbers } from './CopyNumbers.tsx';
import { FindingNote } from './FindingNote.tsx';
import { PlaceNote } from './PlaceNote.tsx';
import { FineNote, UntoldNote } from './ReadingNotes.tsx';
import { SinceBefore } from './SinceBefore.tsx';

/** The margin of the picture: notes in the order of their weight, then what is fine, then the way around. */
export function Notes({ work, picture, seen }: { work: Work; picture: OpenedPicture; seen: Seen | null }) {
  const { place, writable, glance } = useSession();
  return (
    <>
      <section
        className="notes-part"
        aria-label="What stands between the picture and its mood"
        data-read={seen ? true : undefined}
      >
        <h2 className="unseen" data-heading tabIndex={-1}>
          Notes
        </h2>
        <Troubles at={['opening', 'keeping', 'reading']} />
        {!writable && !glance && (
          <p className="remark">
            This work is open in another tab, which keeps it. Here you can look and it follows; put it away
            there to go on here.
          </p>
        )}
        {picture.remarks.map((remark) => (
          <p key={remark} className="remark">
            {remark}
          </p>
        ))}
        <SinceBefore work={work} />
        {seen === null && <Waiting what="Reading the picture" progress={READING} onStop={stopReading} />}
        <ul className="notes">
          {place && <PlaceNote place={place} />}
          {seen?.findings.map((finding) => (
            <FindingNote
              key={finding.key}
              finding={finding}
              reading={readingOf(seen, finding.reading)}
              answers={work.answers}
            />
          ))}
        </ul>
        {seen && seen.findings.length === 0 && <p className="all-fine">{allFine(work)}</p>}
      </section>
      <section className="rest-part" aria-label="What is fine, and the way around">
        {seen && <Settled work={work} seen={seen} />}
        {seen && <Rest seen={seen} />}
        <Cautions />
        {seen && seen.undecided.length > 0 && (
          <p className="quiet">
            {sentence(listOf(seen.undecided))} {seen.undecided.length === 1 ? 'is' : 'are'}{' '}
            <span className="held">
              <button
                type="button"
                className="clause"
                onClick={() => go({ screen: 'intent', work: work.id })}
              >
                left open
              </button>
              ;
            </span>{' '}
            nothing need be decided.
          </p>
        )}
        <WayAround />
        {seen && <CopyNumbers picture={picture.facts} seen={seen} />}
      </section>
    </>
  );
}

const READING = { doing: 'Measuring hues, values, detail and mood', share: null };

/** What to say when no note is open. */
function allFine({ intent }: Work): string {
  const decided = Object.keys(intent).length > 1;
  return decided
    ? 'Nothing stands between this picture and what was decided for it. Your eye has the last word.'
    : 'Nothing calls for a change by itself. Decide a mood or a hue plan, and the picture is read against it.';
}

/** Findings that the artist accepted or called mistaken. */
function Settled({ work, seen }: { work: Work; seen: Seen }) {
  const { settled } = seen;
  if (settled.length === 0) return null;
  return (
    <details className="group">
      <summary>
        {settled.length === 1
          ? 'One note is answered.'
          : `${sentence(countWord(settled.length))} notes are answered.`}
      </summary>
      <ul className="notes">
        {settled.map((finding) => (
          <FindingNote
            key={finding.key}
            finding={finding}
            reading={readingOf(seen, finding.reading)}
            answers={work.answers}
          />
        ))}
      </ul>
    </details>
  );
}

/** Readings without a note: those that are fine and those that can't tell. */
function Rest({ seen }: { seen: Seen }) {
  const fine = seen.readings.filter((reading) => reading.fine !== null);
  const untold = seen.readings.filter(({ evidence }) => evidence.level === 'weak' && !evidence.unasked);
  return (
    <>
      {fine.length > 0 && (
        <details className="group">
          <summary>
            {fine.length === 1
              ? 'One reading is fine.'
              : `${sentence(countWord(fine.length))} readings are fine.`}
          </summary>
          <ul className="notes">
            {fine.map((reading) => (
              <FineNote key={reading.id} reading={reading} />
            ))}
          </ul>
        </details>
      )}
      {untold.length > 0 && (
        <details className="group">
          <summary>
            {untold.length === 1
              ? 'One reading can’t tell from the picture.'
              : `${sentence(countWord(untold.length))} readings can’t tell from the picture.`}
          </summary>
          <ul className="notes">
            {untold.map((reading) => (
              <UntoldNote key={reading.id} reading={reading} />
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function readingOf(seen: Seen, id: string): SeenReading | undefined {
  return seen.readings.find((reading) => reading.id === id);
}

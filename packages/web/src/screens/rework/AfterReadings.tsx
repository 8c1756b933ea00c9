import { countWord, sentence, unitAfter } from '@halflight/engine';
import { number } from '../../parts/ReadingDetails.tsx';
import type { Seen, SeenReading } from '../../picture/desk.ts';
import type { LiveMeasure } from '../../picture/edit-desk.ts';
import { useRework } from '../../state/rework.ts';
import { useSession } from '../../state/session.ts';

/** Numbers that are told at most: the rest stands in the notes. */
const MOST = 8;

/** What the edit does to the readings: which notes it meets, and the numbers that it moves. */
export function AfterReadings() {
  const { live, after } = useRework();
  const seen = useSession((session) => session.seen);
  if (seen === null) return null;
  const moved = movedNumbers(seen, after, live);
  return (
    <section className="after" aria-label="The readings with this edit" data-rested={after ? '' : undefined}>
      {after ? (
        <Notes before={seen} after={after} />
      ) : (
        <p className="quiet">The notes are read again once the edit rests.</p>
      )}
      {moved.length > 0 && (
        <table>
          <caption className="unseen">Numbers that the edit moves</caption>
          <thead className="unseen">
            <tr>
              <th scope="col">Reading</th>
              <th scope="col">Before</th>
              <th scope="col">With the edit</th>
            </tr>
          </thead>
          <tbody>
            {moved.map(({ name, label, before, now }) => (
              <tr key={name}>
                <th scope="row">{label}</th>
                <td className="quiet">{before}</td>
                <td>{now}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

function Notes({ before, after }: { before: Seen; after: Seen }) {
  const left = new Set(after.findings.map(({ key }) => key));
  const had = new Set(before.findings.map(({ key }) => key));
  const met = before.findings.filter(({ key }) => !left.has(key));
  const fresh = after.findings.filter(({ key }) => !had.has(key));
  return (
    <>
      <p>{sentenceOf(before.findings.length, met.length)}</p>
      {(met.length > 0 || fresh.length > 0) && (
        <ul className="after-notes">
          {met.map(({ key, text }) => (
            <li key={key} className="quiet">
              Met: {text}
            </li>
          ))}
          {fresh.map(({ key, text }) => (
            <li key={key}>New: {text}</li>
          ))}
        </ul>
      )}
    </>
  );
}

function sentenceOf(had: number, met: number): string {
  if (had === 0) return 'No note was open before the edit.';
  const all = had === 2 ? 'both' : `all ${countWord(had)}`;
  if (met === 0) return had === 1 ? 'The open note stays.' : `${sentence(all)} open notes stay.`;
  if (met === had) return had === 1 ? 'The edit meets the open note.' : `The edit meets ${all} open notes.`;
  return `${sentence(countWord(met))} of ${countWord(had)} open notes ${met === 1 ? 'is' : 'are'} met.`;
}

interface Moved {
  readonly name: string;
  readonly label: string;
  readonly before: string;
  readonly now: string;
}

/** Numbers that look different with the edit, by all readings once they are made, by those that follow at once before. */
function movedNumbers(seen: Seen, after: Seen | null, live: readonly LiveMeasure[] | null): Moved[] {
  const now = new Map<string, number | null>();
  for (const { reading, key, value } of live ?? []) now.set(`${reading}.${key}`, value);
  for (const { id, measures } of after?.readings ?? [])
    for (const { key, value } of measures) now.set(`${id}.${key}`, value);
  return seen.readings.flatMap((reading) => movedOf(reading, now)).slice(0, MOST);
}

/** A reading's first numbers stand for it: the others are for its note. */
const PER_READING = 2;

function movedOf({ id, measures }: SeenReading, now: ReadonlyMap<string, number | null>): Moved[] {
  return measures
    .flatMap(({ key, label, unit, digits, value }): Moved[] => {
      const name = `${id}.${key}`;
      const next = now.get(name);
      if (value === null || next === null || next === undefined) return [];
      const text = (it: number): string => `${number(it, digits)}${unitAfter(unit)}`;
      return text(value) === text(next) ? [] : [{ name, label, before: text(value), now: text(next) }];
    })
    .slice(0, PER_READING);
}

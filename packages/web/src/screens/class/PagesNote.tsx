import { useState } from 'react';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { performOnClass } from '../../state/class.ts';
import type { ClassDocument } from '../../state/class-document.ts';
import {
  canWriteFolder,
  savePages,
  stopPages,
  usePages,
  writePagesToFolder,
} from '../../state/class-pages.ts';
import type { ClassMeasure } from '../../workers/class/desk.ts';
import type { Plane, ReadEntry, SharedFinding } from './statistics.ts';
import { worksWord } from './words.ts';

const NAMES: Record<ClassDocument['names'], string> = {
  shown: 'whole names',
  initials: 'initials',
  hidden: 'no names',
};

/** What is given back: a page for each work and one for the class, by the teacher's own act only. */
export function PagesNote({
  now,
  entries,
  shared,
  plane,
}: {
  now: ClassDocument;
  entries: readonly ReadEntry[];
  shared: readonly SharedFinding[];
  plane: Plane;
}) {
  const { writing } = usePages();
  const [pdf, setPdf] = useState(false);
  const said = entries.filter(({ work }) => (now.critiques[work.id]?.points.length ?? 0) > 0).length;
  const places = new Map(entries.map(({ work }, place) => [work.id, place]));
  const axis = (measure: ClassMeasure | undefined) =>
    measure && {
      label: measure.label,
      ends: [measure.ends[0], measure.ends[1]] as [string, string],
      values: entries.map(({ read }) => read.values[measure.name] ?? null),
    };
  const [across, up] = [axis(plane.acrossBy), axis(plane.upBy)];
  const wish = {
    pdf,
    common: shared.map(({ text, todo, works }) => ({
      text,
      todo,
      works: works.flatMap(({ id }) => places.get(id) ?? []),
    })),
    plane: across && up ? { across, up } : null,
  };
  return (
    <NoteFrame
      name="pages"
      sentence="A page for each to take home."
      aside={said === 0 ? 'Nothing is said yet' : `Something is said on ${worksWord(said)}`}
    >
      <p>
        The pages carry{' '}
        <select
          className="clause"
          aria-label="Names on the pages"
          value={now.names}
          onChange={(event) =>
            performOnClass({
              kind: 'about',
              words: 'the names on the pages',
              about: { names: event.target.value as ClassDocument['names'] },
            })
          }
        >
          {Object.entries(NAMES).map(([key, words]) => (
            <option key={key} value={key}>
              {words}
            </option>
          ))}
        </select>
        . Each is one file that opens by a double click, without a network.
      </p>
      <p className="consent">
        These are works of others. Give a page to the person whose work it shows; show it to anybody else only
        if that person agrees, and keep names out where they need not be seen. Pages are written on this
        machine and sent nowhere: giving them away is your act.
      </p>
      <label className="choice">
        <input type="checkbox" checked={pdf} onChange={(event) => setPdf(event.target.checked)} />
        Each also as PDF, to print
      </label>
      {writing ? (
        <div className="class-reading">
          <progress aria-label="Writing pages" max={writing.all} value={writing.done} />
          <p className="caption quiet" role="status">
            Page {writing.done + 1} of {writing.all}.{' '}
            <button type="button" className="clause" onClick={stopPages}>
              Stop
            </button>
          </p>
        </div>
      ) : (
        <div className="answers">
          <button
            type="button"
            className="answer"
            disabled={entries.length === 0}
            onClick={() => void savePages(wish)}
          >
            save them as one ZIP
          </button>
          {canWriteFolder() && (
            <button
              type="button"
              className="answer"
              disabled={entries.length === 0}
              onClick={() => void writePagesToFolder(wish)}
            >
              write them into a folder
            </button>
          )}
        </div>
      )}
      <p className="caption quiet">
        Nobody is ranked and nothing gets a mark. Readings are advice; your eye decides.
      </p>
    </NoteFrame>
  );
}

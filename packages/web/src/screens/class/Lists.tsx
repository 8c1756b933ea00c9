import { countWord, sentence } from '@halflight/engine';
import type { ClassDocument } from '../../state/class-document.ts';
import { isRead, type KeptReading } from '../../state/class-reading.ts';
import { WorkStop, WorkStops } from './Plane.tsx';
import type { ReadEntry, SharedFinding } from './statistics.ts';
import { calledOf, worksWord } from './words.ts';

/** The class by what the works have in common: a sentence, then the works it is about. */
export function ByFinding({
  shared,
  entries,
}: {
  shared: readonly SharedFinding[];
  entries: readonly ReadEntry[];
}) {
  const fine = entries.filter(({ read }) => read.findings.length === 0).map(({ work }) => work);
  const groups = [
    ...shared,
    ...(fine.length > 0 ? [{ key: 'none', text: 'No note is open.', todo: '', works: fine }] : []),
  ];
  return (
    <div className="shelf by-finding">
      {groups.map(({ key, text, works }, index) => (
        <section key={key} aria-label={text}>
          <h2>
            {text} <span className="quiet">{worksWord(works.length)}</span>
          </h2>
          <WorkStops label={`Works: ${text}`}>
            {works.map((work, k) => (
              <li key={work.id}>
                <WorkStop
                  work={work}
                  first={index === 0 || k === 0}
                  lit={undefined}
                  words={calledOf(work)}
                  read
                >
                  <span className="caption">{work.who}</span>
                </WorkStop>
              </li>
            ))}
          </WorkStops>
        </section>
      ))}
    </div>
  );
}

/** The class as a list in the order of the files' names. */
export function AsList({
  now,
  readings,
}: {
  now: ClassDocument;
  readings: Readonly<Record<string, KeptReading>>;
}) {
  return (
    <div className="shelf as-list">
      <WorkStops label="Works in the order of their files">
        {now.works.map((work, k) => {
          const reading = readings[work.id];
          const points = now.critiques[work.id]?.points.length ?? 0;
          const first = isRead(reading)
            ? (reading.findings[0]?.text ?? 'No note is open.')
            : (reading?.trouble ?? 'Not read yet.');
          const said =
            points === 0
              ? 'Nothing said yet'
              : `${sentence(countWord(points))} ${points === 1 ? 'point' : 'points'} said`;
          return (
            <li key={work.id} className="row">
              {isRead(reading) ? (
                <WorkStop
                  work={work}
                  first={k === 0}
                  lit={undefined}
                  words={`${calledOf(work)}: ${first}`}
                  read
                >
                  <RowWords called={calledOf(work)} said={said} first={first} />
                </WorkStop>
              ) : (
                <div className="stop">
                  <span className="no-picture" />
                  <RowWords called={calledOf(work)} said={work.file} first={first} />
                </div>
              )}
            </li>
          );
        })}
      </WorkStops>
    </div>
  );
}

function RowWords({ called, said, first }: { called: string; said: string; first: string }) {
  return (
    <span className="row-words">
      <span className="row-title">{called}</span>
      <span className="caption quiet">{said}</span>
      <span className="row-finding">{first}</span>
    </span>
  );
}

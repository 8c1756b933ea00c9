import { countWord, SERIES_NEEDED, sentence } from '@halflight/engine';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import type { ClassDocument, ClassWork } from '../../state/class-document.ts';
import { keepEdited } from '../../state/class-files.ts';
import { bringIn, useSeries } from '../../state/class-series.ts';
import { useClass } from '../../state/class-store.ts';
import { say } from '../../state/session.ts';
import type { BroughtIn } from '../../workers/class/desk.ts';
import { change } from './critique/saying.ts';
import { OneEdit } from './OneEdit.tsx';
import { linesOf, type ReadEntry, setOf } from './statistics.ts';
import { WorkClauses } from './WorkClauses.tsx';
import { calledOf, worksWord } from './words.ts';

/** Whether the works hold together, who is off and what brings each in; and one edit tried on all of them. */
export function SeriesNote({ now, entries }: { now: ClassDocument; entries: readonly ReadEntry[] }) {
  const reading = useClass((state) => state.reading !== null);
  const set = setOf(entries);
  const off = entries.flatMap(({ work }, place) => {
    const texts = set.off.filter((it) => it.work === place).map(({ text }) => text);
    return texts.length > 0 ? [{ work, texts, place }] : [];
  });
  const bring = ({ work, place: at }: (typeof off)[number]): void =>
    void bringIn(work, { works: linesOf(entries), at, common: set.intent });
  const sentence = reading
    ? 'Whether they hold together is told when all are read.'
    : setSentence(set.told, off.length);
  return (
    <NoteFrame name="series" sentence={sentence}>
      {off.length > 0 && (
        <ul className="unread">
          {off.map((it) => (
            <Off key={it.work.id} {...it} onBring={() => bring(it)} />
          ))}
        </ul>
      )}
      {set.told && (
        <p className="caption quiet">
          Compared are the hue plan, the key, the light and the mood. A work stands apart when its distance
          from the middle of the set is beyond 3.5 robust deviations (Iglewicz &amp; Hoaglin 1993) and can be
          seen. Standing apart may be meant.
        </p>
      )}
      {entries.length > 0 && <OneEdit now={now} entries={entries} />}
    </NoteFrame>
  );
}

/** Whether a set holds together, in one sentence. */
function setSentence(told: boolean, off: number): string {
  if (!told) return `With ${countWord(SERIES_NEEDED)} works or more it is told whether they hold together.`;
  if (off === 0) return 'The works hold together as a set.';
  return `${sentence(worksWord(off))} ${off === 1 ? 'stands' : 'stand'} apart from the set.`;
}

/** What was found, read from the edited picture. */
function broughtWords({ edit, still }: BroughtIn): string {
  if (edit === null) return 'No edit of colours brings it nearer; it is repainted, or meant.';
  if (still.length === 0) return 'With this edit it no longer stands apart:';
  return `This edit brings it nearer, but not in: ${still.join(' ')}`;
}

/** A work that is off, and what brings it in: the smallest edit that makes it stand less apart, read again. */
function Off({ work, texts, onBring }: { work: ClassWork; texts: readonly string[]; onBring: () => void }) {
  const { running, brought } = useSeries();
  const found = brought[work.id];
  const attach = async (): Promise<void> => {
    if (!found?.edit) return;
    const { after, ...edit } = found.edit;
    const picture = `${work.id}-${crypto.randomUUID().slice(0, 8)}`;
    await keepEdited(picture, after);
    change(work.id, 'attaching the edit', (it) => ({ ...it, proposal: { ...edit, picture } }));
    say('The edit is attached to the critique.');
  };
  return (
    <li>
      <WorkClauses works={[work]} />: {texts.join(' ')}{' '}
      {found ? (
        <>
          {broughtWords(found)}
          {found.edit && found.address && (
            <>
              <img
                className="series-after"
                src={found.address}
                alt={`${calledOf(work)} as it would come in`}
              />
              {found.edit.steps.join(' ')}{' '}
              <button type="button" className="clause" onClick={() => void attach()}>
                Attach it to the critique
              </button>
              .
            </>
          )}
        </>
      ) : (
        <button type="button" className="clause" disabled={running !== null} onClick={onBring}>
          Which edit brings it in?<span className="unseen"> {calledOf(work)}</span>
        </button>
      )}
    </li>
  );
}

import { checkRecipe, countWord, type Intent, listOf, SERIES_NEEDED, sentence } from '@halflight/engine';
import { type ChangeEvent, useRef } from 'react';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import type { ClassDocument, ClassWork } from '../../state/class-document.ts';
import { keepEdited } from '../../state/class-files.ts';
import {
  bringIn,
  saveEditedSet,
  stopSeries,
  type Tried,
  takeWith,
  tryOnSet,
  useSeries,
} from '../../state/class-series.ts';
import { useClass } from '../../state/class-store.ts';
import { say, trouble } from '../../state/session.ts';
import { change } from './critique/saying.ts';
import { type ReadEntry, setOf } from './statistics.ts';
import { WorkClauses } from './WorkClauses.tsx';
import { calledOf, worksWord } from './words.ts';

/** Whether the works hold together, who is off and what brings each in; and one edit tried on all of them. */
export function SeriesNote({ now, entries }: { now: ClassDocument; entries: readonly ReadEntry[] }) {
  const reading = useClass((state) => state.reading !== null);
  const set = setOf(entries);
  const off = entries.flatMap(({ work }, place) => {
    const texts = set.off.filter((it) => it.work === place).map(({ text }) => text);
    return texts.length > 0 ? [{ work, texts }] : [];
  });
  const sentence = reading
    ? 'Whether they hold together is told when all are read.'
    : setSentence(set.told, off.length);
  return (
    <NoteFrame name="series" sentence={sentence}>
      {off.length > 0 && (
        <ul className="unread">
          {off.map((it) => (
            <Off key={it.work.id} {...it} towards={set.intent} />
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

/** A work that is off, and what brings it in: the smallest edit against what the set has in common. */
function Off({ work, texts, towards }: { work: ClassWork; texts: readonly string[]; towards: Intent }) {
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
          {found.edit ? found.summary : 'No edit of colours brings it in; it is repainted, or meant.'}
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
        <button
          type="button"
          className="clause"
          disabled={running !== null}
          onClick={() => void bringIn(work, towards)}
        >
          Which edit brings it in?<span className="unseen"> {calledOf(work)}</span>
        </button>
      )}
    </li>
  );
}

/** One edit, tried on every work with a check for each, and written for those that are wanted. */
function OneEdit({ now, entries }: { now: ClassDocument; entries: readonly ReadEntry[] }) {
  const { running, tried, leftOut } = useSeries();
  const input = useRef<HTMLInputElement>(null);
  const withEdit = entries.filter(({ work }) => now.critiques[work.id]?.proposal);
  const take = async (event: ChangeEvent<HTMLInputElement>): Promise<void> => {
    const file = event.target.files?.[0];
    event.target.value = '';
    if (!file) return;
    const checked = checkRecipe(
      await file
        .text()
        .then(JSON.parse)
        .catch(() => null),
    );
    if (checked.ok) await tryOnSet(checked.value);
    else trouble('reading', `“${file.name}” holds no edit that can be used. ${checked.trouble}`);
  };
  const taken = tried.filter((it) => 'edit' in it && !leftOut.has(it.work.id)).length;
  return (
    <div className="class-part">
      {running ? (
        <div className="class-reading">
          <p>{running.doing}</p>
          <progress aria-label={running.doing} max={running.all} value={running.done} />
          <p className="caption">
            <button type="button" className="clause" onClick={stopSeries}>
              Stop
            </button>
          </p>
        </div>
      ) : (
        <p>
          Try one edit on all of them:{' '}
          {withEdit.length > 0 && (
            <>
              <select
                className="clause"
                aria-label="Edit to try on every work"
                value=""
                onChange={(event) => {
                  const { proposal } = now.critiques[event.target.value] ?? {};
                  if (proposal) void tryOnSet(proposal.recipe);
                }}
              >
                <option value="">that of one of them</option>
                {withEdit.map(({ work }) => (
                  <option key={work.id} value={work.id}>
                    that of {calledOf(work)}
                  </option>
                ))}
              </select>
              , or{' '}
            </>
          )}
          <button type="button" className="clause" onClick={() => input.current?.click()}>
            one from a file
          </button>
          <input
            ref={input}
            type="file"
            className="unseen"
            tabIndex={-1}
            aria-label="File of an edit"
            accept=".json,application/json"
            onChange={(event) => void take(event)}
          />
          . It is looked at before anything is written.
        </p>
      )}
      {tried.length > 0 && (
        <ul className="tried">
          {tried.map((it) => (
            <TriedWork key={it.work.id} tried={it} taken={!leftOut.has(it.work.id)} />
          ))}
        </ul>
      )}
      {tried.length > 0 && !running && (
        <p>
          <button
            type="button"
            className="clause"
            disabled={taken === 0}
            onClick={() => void saveEditedSet()}
          >
            Write {worksWord(taken)} with it as one ZIP
          </button>
          : PNG at full size; each is read back and held against what was meant.
        </p>
      )}
    </div>
  );
}

function TriedWork({ tried, taken }: { tried: Tried; taken: boolean }) {
  const { work } = tried;
  if ('trouble' in tried)
    return (
      <li>
        <p>
          {calledOf(work)}: {tried.trouble}
        </p>
      </li>
    );
  return (
    <li>
      <img src={tried.address} alt={`${calledOf(work)} with the edit`} />
      <div>
        <label className="choice">
          <input
            type="checkbox"
            checked={taken}
            onChange={(event) => takeWith(work.id, event.target.checked)}
          />
          {calledOf(work)}
        </label>
        <p className="caption">{checkWords(tried.edit)}</p>
      </div>
    </li>
  );
}

/** The check of one picture of the set, in one sentence or two. */
function checkWords({ gone, brings, still }: Extract<Tried, { edit: unknown }>['edit']): string {
  const parts = [
    gone.length > 0 && `${countWord(gone.length)} ${gone.length === 1 ? 'note is' : 'notes are'} gone`,
    still > 0 && `${countWord(still)} ${still === 1 ? 'stays' : 'stay'}`,
  ].filter((part) => typeof part === 'string');
  const told = parts.length > 0 ? `${sentence(listOf(parts))}.` : 'No note before and after.';
  return brings.length > 0 ? `${told} New: ${brings.join(' ')}` : told;
}

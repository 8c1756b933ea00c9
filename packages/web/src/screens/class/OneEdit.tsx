import { checkRecipe, countWord, listOf, sentence } from '@halflight/engine';
import { type ChangeEvent, useRef } from 'react';
import type { ClassDocument } from '../../state/class-document.ts';
import {
  saveEditedSet,
  stopSeries,
  type Tried,
  takeWith,
  tryOnSet,
  useSeries,
} from '../../state/class-series.ts';
import { trouble } from '../../state/session.ts';
import type { ReadEntry } from './statistics.ts';
import { calledOf, worksWord } from './words.ts';

/** One edit, tried on every work with a check for each, and written for those that are wanted. */
export function OneEdit({ now, entries }: { now: ClassDocument; entries: readonly ReadEntry[] }) {
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

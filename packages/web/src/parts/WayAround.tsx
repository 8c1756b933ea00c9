import { Fragment } from 'react';
import { showHelp } from '../app/Help.tsx';
import { go, type Route, type WorkScreen } from '../app/route.ts';
import { WORK_STATES, type WorkState } from '../document/work.ts';
import { saveDossier } from '../state/dossiers.ts';
import { perform, redo, redoWords, undo, undoWords } from '../state/edit.ts';
import { useSession } from '../state/session.ts';
import { changeSettings, type Ground, useSettings, type Wall } from '../state/settings.ts';
import { Comings } from './Comings.tsx';
import { clausesOf } from './clauses.ts';
import { chooseByDialog } from './FileInput.tsx';
import { Packing } from './Packing.tsx';
import { WatchWords } from './WatchWords.tsx';

/** The end of the margin: one sentence that tells where the work stands and leads everywhere. */
export function WayAround() {
  const { history, seen, shelf, route, writable } = useSession();
  const { wall, ground } = useSettings();
  if (history === null) return null;
  const clauses = clausesOf(history.present, seen, shelf?.length ?? 0);
  const undoable = undoWords(history);
  const redoable = redoWords(history);
  return (
    <nav className="way" aria-label="The way around">
      <p>
        {clauses.map(({ text, screen }, index) => (
          <Fragment key={screen}>
            <span className="held">
              <Clause text={text} screen={screen} route={route} work={history.present.id} />
              {index < clauses.length - 1 ? ';' : '.'}
            </span>{' '}
          </Fragment>
        ))}
      </p>
      {(undoable || redoable) && (
        <p>
          {undoable && (
            <button type="button" className="clause" onClick={undo}>
              Undo {undoable}
            </button>
          )}
          {undoable && redoable && ', or '}
          {redoable && (
            <button type="button" className="clause" onClick={redo}>
              {undoable ? 'redo' : 'Redo'} {redoable}
            </button>
          )}
          .
        </p>
      )}
      <p>
        This work is{' '}
        <select
          className="clause"
          aria-label="State of this work"
          value={history.present.state}
          disabled={!writable}
          onChange={(event) => perform({ kind: 'setState', state: event.target.value as WorkState })}
        >
          {WORK_STATES.map((state) => (
            <option key={state} value={state}>
              {STATE_WORDS[state]}
            </option>
          ))}
        </select>
        .{' '}
        <button
          type="button"
          className="clause"
          onClick={() => void saveDossier(history.present.id, history.present.title)}
        >
          Save its dossier
        </button>
        {history.present.state === 'resting'
          ? ': a file that keeps it whole, whatever the browser clears while it rests.'
          : ', the whole work in one file.'}
      </p>
      <Packing />
      <p>
        <Comings lead="Open the next version" as="next" />
        {'; or '}
        <span className="held">
          <button type="button" className="clause" onClick={() => chooseByDialog('own')}>
            open another picture
          </button>
          .
        </span>
      </p>
      <WatchWords work={history.present.id} />
      <p>
        The wall is{' '}
        <span className="held">
          <button type="button" className="clause" onClick={() => changeSettings({ wall: NEXT_WALL[wall] })}>
            {WALL_WORDS[wall]}
          </button>
          ,
        </span>{' '}
        the notes stand on{' '}
        <span className="held">
          <button
            type="button"
            className="clause"
            onClick={() => changeSettings({ ground: NEXT_GROUND[ground] })}
          >
            {ground === 'dark' ? 'dark grey' : 'light grey'}
          </button>
          ;
        </span>{' '}
        <span className="held">
          <button type="button" className="clause" onClick={showHelp}>
            keys and cautions
          </button>
          .
        </span>
      </p>
    </nav>
  );
}

const STATE_WORDS: Record<WorkState, string> = {
  painting: 'being painted',
  editing: 'being edited',
  decided: 'decided',
  delivered: 'delivered',
  resting: 'resting',
};
const NEXT_WALL: Record<Wall, Wall> = { middle: 'dark', dark: 'paper', paper: 'middle' };
const WALL_WORDS: Record<Wall, string> = { middle: 'middle grey', dark: 'dark grey', paper: 'paper' };
const NEXT_GROUND: Record<Ground, Ground> = { dark: 'paper', paper: 'dark' };

function Clause({
  text,
  screen,
  route,
  work,
}: {
  text: string;
  screen: WorkScreen | 'shelf';
  route: Route;
  work: string;
}) {
  if (route.screen === screen) return <span aria-current="page">{text}</span>;
  const to: Route = screen === 'shelf' ? { screen } : { screen, work };
  return (
    <button type="button" className="clause" onClick={() => go(to)}>
      {text}
    </button>
  );
}

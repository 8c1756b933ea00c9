import { countWord, sentence } from '@halflight/engine';
import { chosenOf, goneOf } from '../../document/layers.ts';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { decide } from '../../state/thinout/deciding.ts';
import { useThinout } from '../../state/thinout/store.ts';
import type { ListedPicture, SeenLayers } from '../../workers/layers/desk.ts';
import { idleWords, quoted, rowsOf } from './words.ts';

/** What is to be decided: each set of options, and what shows nothing. */
export function DecisionNotes({
  list,
  seen,
  onOptions,
}: {
  list: ListedPicture;
  seen: SeenLayers;
  onOptions: (set: readonly string[]) => void;
}) {
  return (
    <>
      {seen.options.map((set) => (
        <OptionsNote key={set.join('\n')} set={set} onOptions={() => onOptions(set)} />
      ))}
      <IdleNote list={list} seen={seen} />
    </>
  );
}

/** Name of the note about a set of options. */
export const optionsNote = (set: readonly string[]): string => `options ${set[0]}`;

function OptionsNote({ set, onOptions }: { set: readonly string[]; onOptions: () => void }) {
  const chosen = chosenOf(
    useThinout((state) => state.history.present),
    set,
  );
  return (
    <NoteFrame
      name={optionsNote(set)}
      sentence={
        chosen
          ? `“${chosen.kept}” is chosen.`
          : set.length === 2
            ? `${quoted(set, 'or')}: one is to be chosen.`
            : `${sentence(countWord(set.length))} stand for the same place: one is to be chosen.`
      }
    >
      <p>
        {set.length > 2 && `${quoted(set)}. `}They cover the same place and are never seen together: they keep
        a decision open.
      </p>
      {chosen && (
        <p>
          {set.length === 2 ? 'The other is' : 'The others are'}{' '}
          <button
            type="button"
            className="clause"
            onClick={() =>
              decide({
                kind: 'choose',
                chosen: { ...chosen, others: chosen.others === 'drop' ? 'hide' : 'drop' },
              })
            }
          >
            {chosen.others === 'drop' ? 'taken away' : 'kept, hidden'}
          </button>{' '}
          in what is written.
        </p>
      )}
      <p className="answers">
        <button type="button" className="answer" onClick={onOptions}>
          see them side by side
        </button>
        {chosen && (
          <button type="button" className="answer" onClick={() => decide({ kind: 'reopen', set })}>
            open the choice again
          </button>
        )}
      </p>
    </NoteFrame>
  );
}

function IdleNote({ list, seen }: { list: ListedPicture; seen: SeenLayers }) {
  const choices = useThinout((state) => state.history.present);
  const gone = goneOf(choices);
  const inGroups = new Map(rowsOf(list.layers).map(({ layer, parent }) => [layer.path, { layer, parent }]));
  const idle = seen.layers
    .filter(({ redundant }) => redundant)
    .map(({ path }) => path)
    .filter((path) => {
      const row = inGroups.get(path);
      // What is in a group that shows nothing goes with it.
      const above = row?.parent ? seen.layers.find((one) => one.path === row.parent) : undefined;
      return row !== undefined && !above?.redundant;
    });
  if (idle.length === 0) return null;
  const left = idle.filter((path) => !gone.has(path));
  const subject = idle.length === 1 ? 'One layer shows' : `${sentence(countWord(idle.length))} layers show`;
  return (
    <NoteFrame
      name="idle layers"
      sentence={
        left.length === 0
          ? `${subject} nothing, and ${idle.length === 1 ? 'is' : 'are'} taken away.`
          : `${subject} nothing.`
      }
    >
      <p>
        {idleWords(seen.layers.filter(({ path }) => idle.includes(path)))}. Taking{' '}
        {idle.length === 1 ? 'it' : 'them'} away changes nothing that can be seen, even up close.
      </p>
      {left.length > 0 && (
        <p className="answers">
          <button type="button" className="answer" onClick={() => decide({ kind: 'drop', paths: left })}>
            {left.length === 1 ? 'take it away' : `take all ${countWord(left.length)} away`}
          </button>
        </p>
      )}
    </NoteFrame>
  );
}

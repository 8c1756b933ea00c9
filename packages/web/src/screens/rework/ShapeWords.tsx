import type { AreaShape } from '@halflight/engine';
import { beginTask, giveUpTask } from '../../parts/stage/task.ts';
import { say, useSession } from '../../state/session.ts';
import { shapesFrom } from './shapes.ts';
import { familyWords } from './words.ts';

/** Every kind of part as a word in a sentence. */
export function ShapeWords({ onShape }: { onShape: (shape: AreaShape) => void }) {
  const seen = useSession((session) => session.seen);
  const { groups, families, notes } = shapesFrom(seen);
  const draw = (kind: 'outline' | 'line'): void => {
    const words =
      kind === 'outline'
        ? 'Draw around the area, or tap corner after corner and close the outline.'
        : 'Draw from where it shall do nothing to where it shall work fully, or tap both places.';
    say(words);
    beginTask({
      kind,
      words,
      done: (points) =>
        onShape(
          kind === 'outline'
            ? { kind: 'outline', outlines: [points] }
            : { kind: 'gradient', from: [points[0], points[1]], to: [points[2], points[3]] },
        ),
    });
  };
  return (
    <>
      <Choice
        label="a value group"
        options={groups.map(({ words, shape }) => ({ words, pick: () => onShape(shape) }))}
      />{' '}
      <Choice
        label="a hue family"
        options={families.map((hue) => ({
          words: `${familyWords([{ hue }])} hues`,
          pick: () => onShape({ kind: 'hues', hue, width: 60 }),
        }))}
      />{' '}
      {notes.length > 0 && (
        <>
          <Choice
            label="the places of a note"
            options={notes.map(({ words, outlines }) => ({
              words,
              pick: () => onShape({ kind: 'outline', outlines }),
            }))}
          />{' '}
        </>
      )}
      <button type="button" className="clause" onClick={() => draw('outline')}>
        an outline you draw
      </button>{' '}
      or{' '}
      <span className="held">
        <button type="button" className="clause" onClick={() => draw('line')}>
          a gradient
        </button>
        .
      </span>
    </>
  );
}

/** A word that opens into its choices, held to the comma that follows it. */
function Choice({
  label,
  options,
}: {
  label: string;
  options: readonly { words: string; pick: () => void }[];
}) {
  return (
    <span className="held">
      <select
        className="clause"
        aria-label={label}
        value=""
        onChange={(event) => {
          giveUpTask();
          options[Number(event.target.value)]?.pick();
        }}
      >
        <option value="" disabled hidden>
          {label}
        </option>
        {options.map(({ words }, index) => (
          <option key={words} value={index}>
            {words}
          </option>
        ))}
      </select>
      ,
    </span>
  );
}

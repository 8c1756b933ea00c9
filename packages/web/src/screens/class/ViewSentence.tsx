import type { ClassDocument } from '../../state/class-document.ts';
import { useClass } from '../../state/class-store.ts';
import type { Plane, ReadEntry } from './statistics.ts';
import { lookAt, useClassView } from './view.ts';
import { WorkClauses } from './WorkClauses.tsx';

/** How the works are looked at, as a sentence whose words change it. */
export function ViewSentence({
  now,
  plane,
  entries,
}: {
  now: ClassDocument;
  plane: Plane;
  entries: readonly ReadEntry[];
}) {
  const alone = plane.alone.map((place) => entries[place].work);
  const without = entries.filter((_, place) => plane.places[place] === null).map(({ work }) => work);
  const { measures } = useClass();
  const { shown, across, up } = useClassView();
  const axes: object = now.intent.mood?.axes ?? {};
  const bands = [across, up].some((name) => name.replace(/^mood\./, '') in axes);
  const choose = (label: string, value: string, onChoose: (name: string) => void) => (
    <select
      className="clause"
      aria-label={label}
      value={value}
      onChange={(event) => onChoose(event.target.value)}
    >
      {measures.map(({ name, label: words }) => (
        <option key={name} value={name}>
          {words}
        </option>
      ))}
    </select>
  );
  return (
    <p>
      They{' '}
      <select
        className="clause"
        aria-label="How the works are shown"
        value={shown}
        onChange={(event) => lookAt({ shown: event.target.value as typeof shown })}
      >
        <option value="plane">lie on a plane</option>
        <option value="findings">stand by what was found</option>
        <option value="list">stand in a list</option>
      </select>
      {shown === 'plane' && (
        <>
          : to the right by {choose('Reading to the right', across, (name) => lookAt({ across: name }))},
          upwards by {choose('Reading upwards', up, (name) => lookAt({ up: name }))}
        </>
      )}
      .{shown === 'plane' && bands && ' The bands are what was asked for.'}
      {shown === 'plane' && alone.length > 0 && (
        <>
          {' '}
          <WorkClauses works={alone} /> {alone.length === 1 ? 'stands' : 'stand'} alone there.
        </>
      )}
      {shown === 'plane' && without.length > 0 && (
        <>
          {' '}
          <WorkClauses works={without} /> {without.length === 1 ? 'has' : 'have'} no number there that could
          be told.
        </>
      )}
    </p>
  );
}

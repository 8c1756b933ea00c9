import type { Area, AreaShape, Joining, AreaPart as Part, Step } from '@halflight/engine';
import { useState } from 'react';
import { ArcValues } from '../../parts/ArcValues.tsx';
import { Value } from '../../parts/Value.tsx';
import { titleOf } from '../../state/rework.ts';
import { say } from '../../state/session.ts';
import { ShapeWords } from './ShapeWords.tsx';
import { familyWords, shapeWords } from './words.ts';

const JOINING_WORDS: Record<Joining, string> = { add: 'Add', subtract: 'Take away', keep: 'Keep only' };
const LEADS: Record<Joining, string> = { add: 'with', subtract: 'without', keep: 'only within' };
const NO_AREA: Area = { parts: [], soften: 0.01 };

/** Where a step works: a list of parts put together in order, and what can be put to it. */
export function AreaPart({
  step,
  onChange,
}: {
  step: Step;
  onChange: (change: Partial<Step>, done?: boolean) => void;
}) {
  const [joining, setJoining] = useState<Joining>('add');
  const area = step.area ?? NO_AREA;
  const { parts } = area;
  const put = (next: Area, done = true): void => onChange({ area: next }, done);
  const add = (shape: AreaShape): void => {
    put({ ...area, parts: [...parts, { joining, ...shape } as Part] });
    say(`The area has ${parts.length + 1} parts now.`);
  };
  const change = (at: number, part: Part, done: boolean): void =>
    put({ ...area, parts: parts.map((old, index) => (index === at ? part : old)) }, done);

  return (
    <div className="area">
      <p>{parts.length === 0 ? 'It works everywhere.' : 'Its area follows the edges of the painting:'}</p>
      {parts.length > 0 && (
        <ul className="area-parts">
          {parts.map((part, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: parts have no names, their place in the list is their name
            <li key={at}>
              {part.joining === 'add' && at === 0 ? '' : `${LEADS[part.joining]} `}
              <PartWords
                part={part}
                label={`${titleOf(step)}, part ${at + 1}`}
                onChange={(next, done) => change(at, next, done)}
              />
              ;{' '}
              <button
                type="button"
                className="clause"
                aria-label={`Leave out part ${at + 1}: ${shapeWords(part)}`}
                onClick={() => put({ ...area, parts: parts.filter((_, index) => index !== at) })}
              >
                leave out
              </button>
            </li>
          ))}
          <li>
            softened over{' '}
            <Value
              label={`${titleOf(step)}, softness of its area`}
              value={Math.round(area.soften * 1000) / 10}
              min={0}
              max={30}
              step={0.5}
              digits={1}
              unit={'\u00a0%'}
              onChange={(value, done) => put({ ...area, soften: value / 100 }, done)}
            />{' '}
            of the long side
          </li>
        </ul>
      )}
      <p>
        {parts.length === 0 ? (
          'Limit it to '
        ) : (
          <>
            <select
              className="clause"
              aria-label="How the next part joins"
              value={joining}
              onChange={(event) => setJoining(event.target.value as Joining)}
            >
              {(Object.keys(JOINING_WORDS) as Joining[]).map((name) => (
                <option key={name} value={name}>
                  {JOINING_WORDS[name]}
                </option>
              ))}
            </select>{' '}
          </>
        )}
        <ShapeWords onShape={add} />
      </p>
    </div>
  );
}

/** A part in words, with its numbers to drag. */
function PartWords({
  part,
  label,
  onChange,
}: {
  part: Part;
  label: string;
  onChange: (part: Part, done: boolean) => void;
}) {
  if (part.kind === 'values')
    return (
      <>
        values from{' '}
        <Value
          label={`${label}, darkest value`}
          value={Math.round(part.from)}
          min={0}
          max={100}
          step={1}
          digits={0}
          onChange={(from, done) => onChange({ ...part, from }, done)}
        />{' '}
        to{' '}
        <Value
          label={`${label}, lightest value`}
          value={Math.round(part.to)}
          min={0}
          max={100}
          step={1}
          digits={0}
          onChange={(to, done) => onChange({ ...part, to }, done)}
        />
      </>
    );
  if (part.kind === 'hues')
    return (
      <>
        {familyWords([part])} hues, around{' '}
        <ArcValues
          hue={Math.round(part.hue)}
          width={Math.round(part.width)}
          labels={[`${label}, hue`, `${label}, width`]}
          onChange={(arc, done) => onChange({ ...part, ...arc }, done)}
        />{' '}
        wide
      </>
    );
  return <>{shapeWords(part)}</>;
}

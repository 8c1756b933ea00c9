import { type Step, stepKind } from '@halflight/engine';
import { useId } from 'react';
import type { Work } from '../../document/work.ts';
import { Value } from '../../parts/Value.tsx';
import { perform } from '../../state/edit.ts';
import { changeStep, titleOf } from '../../state/rework.ts';
import { set, useSession } from '../../state/session.ts';
import { AreaPart } from './AreaPart.tsx';
import { AreaThumb } from './AreaThumb.tsx';
import { DataPart } from './DataPart.tsx';
import { StepSentence } from './StepSentence.tsx';
import { areaWords } from './words.ts';

/** A step of the edit: its sentence, the area it works in as a small picture, and on demand all that can be done to it. */
export function StepNote({
  work,
  step,
  at,
  count,
  onOptions,
}: {
  work: Work;
  step: Step;
  at: number;
  count: number;
  /** Opens a sheet of options for this step. */
  onOptions: () => void;
}) {
  const name = `step ${at}`;
  const body = useId();
  const open = useSession((session) => session.openNote === name);
  const writable = useSession((session) => session.writable);
  const change = (next: Partial<Step>, done = true): void => changeStep(work, at, next, done);
  const known = isKnown(step);
  return (
    <li
      className="note step"
      data-note={name}
      data-open={open || undefined}
      data-off={step.on ? undefined : ''}
      onPointerEnter={(event) => event.pointerType === 'mouse' && set({ pointedNote: name })}
      onPointerLeave={() => set({ pointedNote: null })}
    >
      <div className="step-head">
        <h3 className="step-sentence">
          {known ? <StepSentence step={step} onChange={change} /> : 'A step of a newer kind, left out here'},{' '}
          <button
            type="button"
            className="clause step-open"
            data-anchor={name}
            aria-expanded={open}
            aria-controls={body}
            aria-label={`${titleOf(step)}: ${areaWords(step)}${step.on ? '' : ', switched off'}`}
            onClick={() => set({ openNote: open ? null : name })}
            onFocus={() => set({ pointedNote: name })}
            onBlur={() => set({ pointedNote: null })}
          >
            {/* The stop belongs to the words, or it would begin a line of its own after several lines of them. */}
            {areaWords(step)}.
          </button>
          {step.on ? '' : ' Switched off.'}
        </h3>
        {step.area && step.area.parts.length > 0 && <AreaThumb step={step} at={at} />}
      </div>
      {step.reason && <p className="caption quiet">Proposed: {step.reason}</p>}
      <div id={body} className="note-body" hidden={!open}>
        {open && (
          <>
            {known && <p className="caption quiet">{stepKind(step.kind).about}</p>}
            {known && <DataPart work={work} step={step} onChange={change} />}
            {known && writable && <AreaPart step={step} onChange={change} />}
            {known && (
              <p>
                At a strength of{' '}
                <Value
                  label={`${titleOf(step)}, strength`}
                  value={Math.round(step.strength * 100)}
                  min={0}
                  max={100}
                  step={1}
                  digits={0}
                  unit={'\u00a0%'}
                  onChange={(value, done) => change({ strength: value / 100 }, done)}
                />
                .
              </p>
            )}
            {writable && <Handling step={step} at={at} count={count} onOptions={known ? onOptions : null} />}
          </>
        )}
      </div>
    </li>
  );
}

function isKnown(step: Step): boolean {
  try {
    return stepKind(step.kind) !== undefined;
  } catch {
    return false;
  }
}

/** Order, switch, options, removal. */
function Handling({
  step,
  at,
  count,
  onOptions,
}: {
  step: Step;
  at: number;
  count: number;
  onOptions: (() => void) | null;
}) {
  const title = titleOf(step);
  const move = (to: number): void => {
    perform({ kind: 'moveStep', title, at, to });
    set({ openNote: `step ${to}` });
    requestAnimationFrame(() => document.querySelector<HTMLElement>(`[data-anchor="step ${to}"]`)?.focus());
  };
  return (
    <p className="answers">
      {onOptions && (
        <button type="button" className="answer" onClick={onOptions}>
          see options
        </button>
      )}
      <button
        type="button"
        className="answer"
        onClick={() => perform({ kind: 'switchStep', title, at, on: !step.on })}
      >
        switch {step.on ? 'off' : 'on'}
      </button>
      {at > 0 && (
        <button type="button" className="answer" onClick={() => move(at - 1)}>
          earlier
        </button>
      )}
      {at < count - 1 && (
        <button type="button" className="answer" onClick={() => move(at + 1)}>
          later
        </button>
      )}
      <button
        type="button"
        className="answer"
        onClick={() => {
          perform({ kind: 'removeStep', title, at });
          set({ openNote: null, said: `Removed: ${title}.` });
          document.querySelector<HTMLElement>('[data-heading]')?.focus();
        }}
      >
        remove
      </button>
    </p>
  );
}

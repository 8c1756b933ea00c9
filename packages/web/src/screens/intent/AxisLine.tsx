import { type AxisTarget, MOOD_AXES, type MoodAxis, unitAfter } from '@halflight/engine';
import { useState } from 'react';
import { number } from '../../parts/ReadingDetails.tsx';
import { Value } from '../../parts/Value.tsx';
import { axisPart, axisValue } from './axis.ts';

const STEPS = 1000;

/**
 * One axis of the mood as a short line: the wanted range as a band, the picture as a dot, and a mark that is
 * moved. Left open until it is moved.
 */
export function AxisLine({
  axis,
  target,
  measured,
  onTarget,
}: {
  axis: MoodAxis;
  target: AxisTarget | undefined;
  measured: number | null;
  onTarget: (target: AxisTarget | null) => void;
}) {
  const { title, low, high, less, more, digits, unit, tolerance, step } = MOOD_AXES[axis];
  const [draft, setDraft] = useState<number | null>(null);
  const at = draft ?? target?.at ?? measured ?? axisValue(axis, 0.5);
  const reach = target?.tolerance ?? tolerance;
  const decided = draft !== null || target !== undefined;
  const commit = (): void => {
    if (draft !== null) onTarget({ at: draft, tolerance: reach });
    setDraft(null);
  };
  const wanted = `${number(at, digits)}${unitAfter(unit)}`;
  const far = measured === null ? 0 : measured < at - reach ? -1 : measured > at + reach ? 1 : 0;
  const stands = far === 0 ? 'the picture fits' : `the picture is ${far < 0 ? less : more}`;

  return (
    <div className="axis" data-decided={decided || undefined}>
      <span className="axis-end">{low}</span>
      <span className="axis-end quiet">{!decided ? 'left open' : measured === null ? '' : stands}</span>
      <span className="axis-end high">{high}</span>
      <div className="axis-line">
        <svg viewBox="0 0 100 20" preserveAspectRatio="none" aria-hidden="true">
          {decided && <Band from={axisPart(axis, at - reach)} to={axisPart(axis, at + reach)} />}
          <line className="axis-track" x1="0" x2="100" y1="10" y2="10" />
        </svg>
        {measured !== null && (
          <span className="axis-picture" style={{ left: `${100 * axisPart(axis, measured)}%` }} />
        )}
        <input
          type="range"
          min={0}
          max={STEPS}
          step={5}
          value={Math.round(STEPS * axisPart(axis, at))}
          aria-label={title}
          aria-valuetext={decided ? `${wanted} wanted, ${stands}` : 'left open'}
          onChange={(event) => setDraft(axisValue(axis, Number(event.target.value) / STEPS))}
          onPointerUp={commit}
          onKeyUp={commit}
          onBlur={commit}
        />
      </div>
      {decided && (
        <p className="caption quiet">
          {wanted}, give or take{' '}
          <Value
            label={`Tolerance of ${title}`}
            value={reach}
            min={step / 20}
            max={step * 4}
            step={10 ** -digits}
            digits={digits}
            onChange={(value, done) => done && onTarget({ at, tolerance: value })}
          />
          ;{' '}
          <button
            type="button"
            className="clause"
            aria-label={`leave open: ${title}`}
            onClick={() => onTarget(null)}
          >
            leave open
          </button>
        </p>
      )}
    </div>
  );
}

function Band({ from, to }: { from: number; to: number }) {
  return <rect className="axis-band" x={100 * from} y="4" width={100 * (to - from)} height="12" />;
}

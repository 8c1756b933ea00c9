import { type Step, settingOf, stepKind, unitAfter } from '@halflight/engine';
import { Value } from '../../parts/Value.tsx';
import { type Piece, piecesOf, stepOf } from './words.ts';

/** A step as a sentence; its values are dragged where they stand. */
export function StepSentence({
  step,
  onChange,
}: {
  step: Step;
  onChange: (change: Partial<Step>, done: boolean) => void;
}) {
  const kind = stepKind(step.kind);
  return piecesOf(kind).map((piece: Piece) => {
    if ('text' in piece) return piece.text;
    const { parameter } = piece;
    const { key, label, unit, min, max, digits } = parameter;
    return (
      <Value
        key={key}
        label={`${kind.title}, ${label}`}
        value={settingOf(step, parameter)}
        min={min}
        max={max}
        step={stepOf(parameter)}
        digits={digits}
        unit={unitAfter(unit)}
        onChange={(value, done) => onChange({ values: { ...step.values, [key]: value } }, done)}
      />
    );
  });
}

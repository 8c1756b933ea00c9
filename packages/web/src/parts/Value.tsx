import '../style/value.css';
import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react';
import { number } from './ReadingDetails.tsx';

/** A number in running text. */
export interface ValueProps {
  readonly value: number;
  /** Called with every change while it is dragged, and once at its end with `done`. */
  readonly onChange: (value: number, done: boolean) => void;
  /** What it is, for those who can't see the sentence around it. */
  readonly label: string;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly digits: number;
  readonly unit?: string;
  /** True for angles: beyond the end it begins again. */
  readonly round?: boolean;
}

/** Pixels of dragging for one step. */
const PULL = 4;

/**
 * A value in a sentence. It is dragged sideways where it stands; arrows change it too, and a tap opens it for
 * typing with − and + (WCAG 2.5.7: nothing needs dragging).
 */
export function Value(props: ValueProps) {
  const [state, setState] = useState<'rest' | 'typing' | 'back'>('rest');
  return state === 'typing' ? (
    <Typed {...props} onEnd={(byKey) => setState(byKey ? 'back' : 'rest')} />
  ) : (
    <Dragged {...props} focused={state === 'back'} onTap={() => setState('typing')} />
  );
}

function Dragged({ focused, onTap, ...props }: ValueProps & { focused: boolean; onTap: () => void }) {
  const { value, onChange, label, min, max, step, digits, unit = '' } = props;
  const pull = useRef<{ x: number; value: number; moved: boolean } | null>(null);
  const took = useRef(false);
  const text = `${number(value, digits)}${unit}`;

  const onPointerDown = (event: PointerEvent<HTMLSpanElement>): void => {
    event.currentTarget.setPointerCapture(event.pointerId);
    pull.current = { x: event.clientX, value, moved: false };
  };
  const onPointerMove = (event: PointerEvent): void => {
    if (pull.current === null) return;
    const steps = Math.trunc((event.clientX - pull.current.x) / PULL);
    pull.current.moved ||= steps !== 0;
    if (pull.current.moved) onChange(kept(props, pull.current.value + steps * step), false);
  };
  const onPointerUp = (): void => {
    const { moved } = pull.current ?? {};
    pull.current = null;
    if (moved) onChange(value, true);
    else onTap();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = keySteps(event);
    if (by !== 0) onChange(kept(props, value + by * step), true);
    else if (event.key === 'Enter' || event.key === ' ') onTap();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <span
      className="value"
      role="spinbutton"
      tabIndex={0}
      ref={(element) => {
        if (focused && !took.current) element?.focus();
        took.current = true;
      }}
      aria-label={label}
      aria-valuenow={value}
      aria-valuemin={min}
      aria-valuemax={max}
      aria-valuetext={text}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={onPointerUp}
      onPointerCancel={() => {
        pull.current = null;
      }}
      onKeyDown={onKeyDown}
    >
      {text}
    </span>
  );
}

function Typed({ onEnd, ...props }: ValueProps & { onEnd: (byKey: boolean) => void }) {
  const { value, onChange, label, step, digits, unit } = props;
  const [text, setText] = useState(value.toFixed(digits));
  const whole = useRef<HTMLSpanElement>(null);
  const give = (next: number): void => {
    setText(next.toFixed(digits));
    onChange(next, true);
  };
  const close = (byKey: boolean): void => {
    const number = Number(text.replace(',', '.').replace('−', '-'));
    if (text.trim() !== '' && Number.isFinite(number) && number !== value)
      onChange(kept(props, number), true);
    onEnd(byKey);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: it only hears that the focus has left all that is in it
    <span
      ref={whole}
      className="value-open"
      onBlur={(event) => {
        if (!whole.current?.contains(event.relatedTarget)) close(false);
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        onEnd(true);
        event.preventDefault();
        event.stopPropagation();
      }}
    >
      <button
        type="button"
        className="answer"
        aria-label={`${label}: less`}
        onClick={() => give(kept(props, value - step))}
      >
        −
      </button>
      <input
        // biome-ignore lint/a11y/noAutofocus: the field appears because its value was tapped
        autoFocus
        inputMode="decimal"
        aria-label={label}
        value={text}
        onChange={(event) => setText(event.target.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return;
          close(true);
          event.preventDefault();
          event.stopPropagation();
        }}
      />
      <button
        type="button"
        className="answer"
        aria-label={`${label}: more`}
        onClick={() => give(kept(props, value + step))}
      >
        +
      </button>
      {unit}
    </span>
  );
}

function keySteps(event: KeyboardEvent): number {
  const size = event.shiftKey ? 10 : 1;
  if (event.key === 'ArrowUp' || event.key === 'ArrowRight') return size;
  if (event.key === 'ArrowDown' || event.key === 'ArrowLeft') return -size;
  return 0;
}

/** The value inside its range, without the dust of repeated adding. */
function kept({ min, max, digits, round }: ValueProps, value: number): number {
  const turned = round ? min + ((((value - min) % (max - min)) + (max - min)) % (max - min)) : value;
  return Number(Math.min(max, Math.max(min, turned)).toFixed(digits));
}

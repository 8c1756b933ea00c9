import type { CritiqueMark } from '@halflight/pages';
import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react';
import { arrowed } from '../../../parts/stage/arrows.ts';
import { outlinePath } from '../../../parts/stage/places.ts';
import { useStage } from '../../../parts/stage/stage-store.ts';
import type { Point } from '../../../state/class-document.ts';
import { set, useSession } from '../../../state/session.ts';
import { anchorOf, changePoint, moved, noteOf } from './saying.ts';

/** A press that moves less, in CSS pixels, is a press. */
const SLOP = 4;

/** What was drawn on the picture, each with the number of its point; numbers are moved by hand or by arrow keys. */
export function PointMarks({
  work,
  points,
  size,
  words,
}: {
  work: string;
  /** In the order of the page. */
  points: readonly Point[];
  size: { readonly width: number; readonly height: number };
  /** Whether every text is shown on the picture. */
  words: boolean;
}) {
  const { view, box } = useStage();
  const [draft, setDraft] = useState<{ point: string; index: number; mark: CritiqueMark } | null>(null);
  const { openNote, pointedNote } = useSession();
  const [width, height] = [size.width * view.scale, size.height * view.scale];
  const drawn = points.flatMap((point, order) =>
    point.marks.map((mark, index) => ({
      point,
      index,
      number: order + 1,
      mark: draft?.point === point.id && draft.index === index ? draft.mark : mark,
      open: openNote === noteOf(point.id),
      lit: pointedNote === noteOf(point.id),
    })),
  );
  const keep = (point: Point, index: number, mark: CritiqueMark): void =>
    changePoint(work, point.id, 'moving a mark', {
      marks: point.marks.map((old, at) => (at === index ? mark : old)),
    });
  return (
    <div className="point-marks">
      <svg aria-hidden="true">
        <g transform={`translate(${view.x} ${view.y})`}>
          {drawn.map(({ point, index, mark, open, lit }) => {
            if (mark.kind === 'pin') return null;
            const path = pathOf(mark, width, height);
            return (
              <g key={`${point.id} ${index}`} data-lit={open || lit}>
                <path className="halo" d={path} />
                <path className="line" d={path} />
              </g>
            );
          })}
        </g>
      </svg>
      {drawn.map(({ point, index, number, mark, open, lit }) => {
        const [x, y] = anchorOf(mark);
        const at = { left: view.x + x * width, top: view.y + y * height };
        return (
          <Numbered
            key={`${point.id} ${index}`}
            point={point}
            number={number}
            mark={mark}
            at={at}
            state={{ open, lit }}
            scale={{ width, height }}
            words={(words || lit) && index === 0}
            leftwards={at.left > 0.6 * box.width}
            onDraft={(next) => setDraft(next && { point: point.id, index, mark: next })}
            onKeep={(next) => {
              setDraft(null);
              keep(point, index, next);
            }}
          />
        );
      })}
    </div>
  );
}

function Numbered({
  point,
  number,
  mark,
  at,
  state,
  scale,
  words,
  leftwards,
  onDraft,
  onKeep,
}: {
  point: Point;
  number: number;
  mark: CritiqueMark;
  at: { left: number; top: number };
  state: { open: boolean; lit: boolean };
  scale: { width: number; height: number };
  words: boolean;
  /** Whether the words stand on the left of the number: near the right edge there is no room. */
  leftwards: boolean;
  onDraft: (mark: CritiqueMark | null) => void;
  onKeep: (mark: CritiqueMark) => void;
}) {
  const drag = useRef<{ x: number; y: number; mark: CritiqueMark; moved: CritiqueMark | null } | null>(null);
  const name = noteOf(point.id);
  const open = (): void => set({ openNote: name });

  const onPointerDown = (event: PointerEvent<HTMLButtonElement>): void => {
    event.currentTarget.setPointerCapture(event.pointerId);
    drag.current = { x: event.clientX, y: event.clientY, mark, moved: null };
  };
  const onPointerMove = (event: PointerEvent): void => {
    const { current } = drag;
    if (current === null) return;
    const [dx, dy] = [event.clientX - current.x, event.clientY - current.y];
    if (current.moved === null && Math.hypot(dx, dy) < SLOP) return;
    current.moved = moved(current.mark, dx / scale.width, dy / scale.height);
    onDraft(current.moved);
  };
  const onPointerUp = (): void => {
    const was = drag.current;
    drag.current = null;
    if (was?.moved) onKeep(was.moved);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const from = anchorOf(mark);
    const to = arrowed(event, from);
    if (to === null) return;
    onKeep(moved(mark, to[0] - from[0], to[1] - from[1]));
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <>
      <button
        type="button"
        className="point-number"
        style={at}
        aria-expanded={state.open}
        data-lit={state.lit}
        aria-label={`Mark of point ${number}: ${point.text || 'nothing written yet'}. Arrow keys move it, Enter opens its note.`}
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={onPointerUp}
        onPointerCancel={() => {
          drag.current = null;
          onDraft(null);
        }}
        onPointerEnter={() => set({ pointedNote: name })}
        onPointerLeave={() => set({ pointedNote: null })}
        onFocus={() => set({ pointedNote: name })}
        onBlur={() => set({ pointedNote: null })}
        onClick={open}
        onKeyDown={onKeyDown}
      >
        {number}
      </button>
      {words && point.text && (
        <p
          className={leftwards ? 'point-words to-the-left' : 'point-words'}
          style={{ left: at.left + (leftwards ? -18 : 18), top: at.top + 10 }}
          aria-hidden="true"
        >
          {shortened(point.text)}
        </p>
      )}
    </>
  );
}

/** On the picture stand the first words; all of them stand in the margin and on the page. */
function shortened(text: string): string {
  return text.length <= 90 ? text : `${text.slice(0, 84).replace(/\s\S*$/, '')} …`;
}

function pathOf(mark: Exclude<CritiqueMark, { kind: 'pin' }>, width: number, height: number): string {
  if (mark.kind === 'outline') return outlinePath(mark.points, width, height);
  return Array.from(
    { length: mark.points.length / 2 },
    (_, k) =>
      `${k === 0 ? 'M' : 'L'}${(mark.points[2 * k] * width).toFixed(1)} ${(mark.points[2 * k + 1] * height).toFixed(1)}`,
  ).join('');
}

import type { Finding } from '@halflight/engine';
import { type PointerEvent, useState } from 'react';
import { outlineOf, outlinePath } from '../../../parts/stage/places.ts';
import { useStage } from '../../../parts/stage/stage-store.ts';
import { pictureShare } from '../../../parts/stage/view.ts';
import type { ReadWork } from '../../../state/class-reading.ts';
import { set } from '../../../state/session.ts';
import { addPoint, takeFinding } from './saying.ts';

/** What the readings found, to be taken into the critique by a button or by dragging its outline onto the picture. */
export function FindingsToTake({
  work,
  read,
  taken,
}: {
  work: string;
  read: ReadWork;
  /** Keys of the findings that are taken in. */
  taken: ReadonlySet<string | undefined>;
}) {
  const open = read.findings.filter(({ key }) => !taken.has(key));
  if (open.length === 0)
    return (
      <p className="quiet">{read.findings.length > 0 ? 'All of it is taken in.' : 'No note is open.'}</p>
    );
  return (
    <ul>
      {open.map((finding) => (
        <li
          key={finding.key}
          className="to-take"
          onPointerEnter={() => set({ pointedNote: finding.key })}
          onPointerLeave={() => set({ pointedNote: null })}
          onFocus={() => set({ pointedNote: finding.key })}
          onBlur={() => set({ pointedNote: null })}
        >
          <DragOutline finding={finding} read={read} onDrop={(at) => takeFinding(work, finding, at)} />
          <div>
            <p>{finding.text}</p>
            <p className="caption quiet">{finding.number}</p>
            <p>
              <button type="button" className="clause" onClick={() => takeFinding(work, finding)}>
                Take it in<span className="unseen">: {finding.text}</span>
              </button>
            </p>
          </div>
        </li>
      ))}
    </ul>
  );
}

/** The outline of a finding, small; it can be dragged onto the picture. The button beside it does the same. */
function DragOutline({
  finding,
  read,
  onDrop,
}: {
  finding: Finding;
  read: ReadWork;
  onDrop: (at: [number, number]) => void;
}) {
  const [at, setAt] = useState<{ x: number; y: number } | null>(null);
  const height = (64 * read.height) / read.width;
  const begin = (event: PointerEvent): void => {
    event.currentTarget.setPointerCapture(event.pointerId);
    setAt({ x: event.clientX, y: event.clientY });
    event.preventDefault();
  };
  const end = (event: PointerEvent): void => {
    setAt(null);
    const stage = document.querySelector('.stage')?.getBoundingClientRect();
    const { clientX: x, clientY: y } = event;
    if (!stage) return;
    const { view } = useStage.getState();
    const size = { width: read.width, height: read.height };
    const share = pictureShare(view, { x: x - stage.left, y: y - stage.top }, size);
    if (share) onDrop([share.x, share.y]);
  };
  return (
    <div
      className="drag-outline"
      aria-hidden="true"
      onPointerDown={begin}
      onPointerMove={(event) => at && setAt({ x: event.clientX, y: event.clientY })}
      onPointerUp={(event) => at && end(event)}
      onPointerCancel={() => setAt(null)}
    >
      <svg viewBox={`0 0 64 ${height}`} aria-hidden="true">
        {(finding.places ?? []).slice(0, 6).map((place) => {
          const path = outlinePath(outlineOf(place), 64, height);
          return <path key={path} d={path} />;
        })}
        {!finding.places?.length && <circle cx="32" cy={height / 2} r="5" />}
      </svg>
      {at && (
        <p className="drag-ghost" style={{ left: at.x, top: at.y }}>
          {finding.text}
        </p>
      )}
    </div>
  );
}

/** What the readings find strong, to be said as praise. */
export function StrongToSay({
  work,
  strong,
  said,
}: {
  work: string;
  strong: readonly string[];
  said: ReadonlySet<string>;
}) {
  const open = strong.filter((text) => !said.has(text));
  if (open.length === 0) return null;
  return (
    <details className="group">
      <summary>What the readings find strong</summary>
      <ul className="unread">
        {open.map((text) => (
          <li key={text}>
            {text}{' '}
            <button
              type="button"
              className="clause"
              onClick={() => addPoint(work, { kind: 'praise', text, marks: [] }, 'praise')}
            >
              Say so<span className="unseen">: {text}</span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef, useState } from 'react';

/** Heights of the sheet in shares of the page, from peeking to nearly all. */
const LOW = 0.18;
const HIGH = 0.88;
const STEP = 0.1;

/** The margin. On an upright page it lies below the picture as a sheet that can be pulled by its upper edge. */
export function Sheet({ children }: { children: ReactNode }) {
  const [height, setHeight] = useState(0.46);
  const pull = useRef<{ y: number; height: number } | null>(null);
  const keep = (value: number): void => setHeight(Math.min(HIGH, Math.max(LOW, value)));

  const onPointerDown = (event: PointerEvent<HTMLDivElement>): void => {
    event.currentTarget.setPointerCapture(event.pointerId);
    pull.current = { y: event.clientY, height };
  };
  const onPointerMove = (event: PointerEvent): void => {
    if (pull.current) keep(pull.current.height + (pull.current.y - event.clientY) / window.innerHeight);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const wish: Record<string, number> = {
      ArrowUp: height + STEP,
      ArrowDown: height - STEP,
      Home: HIGH,
      End: LOW,
    };
    if (!(event.key in wish)) return;
    keep(wish[event.key]);
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <aside className="margin" aria-label="Notes" style={{ '--sheet': height } as React.CSSProperties}>
      {/* biome-ignore lint/a11y/useSemanticElements: a separator that moves has no element of its own */}
      <div
        className="pull"
        role="separator"
        aria-orientation="horizontal"
        aria-label="Height of the notes"
        aria-valuemin={Math.round(LOW * 100)}
        aria-valuemax={Math.round(HIGH * 100)}
        aria-valuenow={Math.round(height * 100)}
        tabIndex={0}
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={() => {
          pull.current = null;
        }}
        onPointerCancel={() => {
          pull.current = null;
        }}
        onKeyDown={onKeyDown}
      />
      <div className="margin-body">{children}</div>
    </aside>
  );
}

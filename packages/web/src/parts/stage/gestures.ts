/** What hands do on the stage, in stage coordinates. */
export interface Gestures {
  tap(at: Point): void;
  hover(at: Point | null): void;
  move(dx: number, dy: number): void;
  zoom(factor: number, at: Point): void;
  /** True while an outline is being drawn: one pointer then draws. */
  drawing(): boolean;
  /** A point of the line that is drawn. */
  draw(at: Point): void;
  /** The line is done; `kept` is false when a second finger or the system broke it off. */
  drawn(kept: boolean): void;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Farther than this in CSS pixels a press is no tap. */
const SLOP = 6;

/**
 * Mouse: click reads, drag moves, wheel zooms. Touch and pen: a tap reads, two fingers move and zoom; one
 * finger does nothing else, so that a hand may rest, unless something is being drawn. Returns the function that stops listening.
 */
export function listen(element: HTMLElement, gestures: Gestures): () => void {
  const down = new Map<number, Point>();
  let start: Point | null = null;
  let line = false;

  const point = (event: MouseEvent): Point => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };

  const onDown = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    element.setPointerCapture(event.pointerId);
    down.set(event.pointerId, point(event));
    start = down.size === 1 ? point(event) : null;
    if (line) endLine(false);
  };
  const endLine = (kept: boolean): void => {
    line = false;
    gestures.drawn(kept);
  };

  const onMove = (event: PointerEvent): void => {
    const now = point(event);
    const before = down.get(event.pointerId);
    if (!before) {
      if (event.pointerType === 'mouse') gestures.hover(now);
      return;
    }
    if (start && Math.hypot(now.x - start.x, now.y - start.y) > SLOP) {
      if (gestures.drawing()) {
        line = true;
        gestures.draw(start);
      }
      start = null;
    }
    if (line) gestures.draw(now);
    else if (down.size === 2) pinch(event.pointerId, before, now);
    else if (event.pointerType === 'mouse' && !start) gestures.move(now.x - before.x, now.y - before.y);
    down.set(event.pointerId, now);
  };

  const pinch = (id: number, before: Point, now: Point): void => {
    const other = [...down].find(([key]) => key !== id)?.[1];
    if (!other) return;
    const middle = { x: (now.x + other.x) / 2, y: (now.y + other.y) / 2 };
    gestures.move((now.x - before.x) / 2, (now.y - before.y) / 2);
    const apart = Math.hypot(before.x - other.x, before.y - other.y);
    if (apart > 0) gestures.zoom(Math.hypot(now.x - other.x, now.y - other.y) / apart, middle);
  };

  const onUp = (event: PointerEvent): void => {
    if (start && down.size === 1) gestures.tap(point(event));
    if (line) endLine(true);
    onLost(event);
  };
  const onLost = (event: PointerEvent): void => {
    if (line) endLine(false);
    down.delete(event.pointerId);
    start = null;
  };
  const onLeave = (): void => gestures.hover(null);
  const onWheel = (event: WheelEvent): void => {
    event.preventDefault();
    const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
    gestures.zoom(Math.exp(-event.deltaY * lines * (event.ctrlKey ? 0.01 : 0.0018)), point(event));
  };

  element.addEventListener('pointerdown', onDown);
  element.addEventListener('pointermove', onMove);
  element.addEventListener('pointerup', onUp);
  element.addEventListener('pointercancel', onLost);
  element.addEventListener('pointerleave', onLeave);
  element.addEventListener('wheel', onWheel, { passive: false });
  return () => {
    element.removeEventListener('pointerdown', onDown);
    element.removeEventListener('pointermove', onMove);
    element.removeEventListener('pointerup', onUp);
    element.removeEventListener('pointercancel', onLost);
    element.removeEventListener('pointerleave', onLeave);
    element.removeEventListener('wheel', onWheel);
  };
}

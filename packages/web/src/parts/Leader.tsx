import type { Place } from '@halflight/engine';
import { useEffect, useState } from 'react';
import { outlineOf } from './stage/places.ts';
import { useStage } from './stage/stage-store.ts';
import { useNotesBelow } from './useNotesBelow.ts';

/** A point on the picture, in shares of its width and height. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Where a line to a note leaves a place: its edge nearest to the notes. */
export function spotOf(place: Place, notesBelow: boolean): Spot {
  const outline = outlineOf(place);
  let best = 0;
  for (let i = 2; i < outline.length; i += 2) {
    const farther = notesBelow ? outline[i + 1] > outline[best + 1] : outline[i] > outline[best];
    if (farther) best = i;
  }
  return { x: outline[best], y: outline[best + 1] };
}

/** The thin line from a note to its place on the picture. */
export function Leader({
  note,
  spot,
  size,
}: {
  note: string;
  spot: Spot;
  size: { width: number; height: number };
}) {
  const { view, box } = useStage();
  const [[wall, inMargin], setPaths] = useState(['', '']);
  const below = useNotesBelow();

  useEffect(() => {
    let frame = 0;
    const draw = (): void => setPaths(measure() ?? ['', '']);
    const measure = (): [string, string] | null => {
      const anchor = document.querySelector(`[data-anchor="${CSS.escape(note)}"]`);
      const margin = document.querySelector('.margin');
      if (!anchor || !margin) return null;
      const x = view.x + spot.x * size.width * view.scale;
      const y = view.y + spot.y * size.height * view.scale;
      if (x < 0 || y < 0 || x > box.width || y > box.height) return null;
      const [heading, sheet] = [anchor.getBoundingClientRect(), margin.getBoundingClientRect()];
      return leaderPaths(box.left + x, box.top + y, heading, sheet, below);
    };
    const soon = (): void => {
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(draw);
    };
    draw();
    const margin = document.querySelector('.margin');
    margin?.addEventListener('scroll', soon, { passive: true, capture: true });
    window.addEventListener('resize', soon);
    const observer = new ResizeObserver(soon);
    for (const child of margin?.querySelectorAll('.note, .margin-body') ?? []) observer.observe(child);
    return () => {
      cancelAnimationFrame(frame);
      margin?.removeEventListener('scroll', soon, { capture: true });
      window.removeEventListener('resize', soon);
      observer.disconnect();
    };
  }, [note, spot, size, view, box, below]);

  if (wall === '') return null;
  return (
    <svg className="leader" aria-hidden="true">
      <path className="line" d={wall} />
      <path className="line in-margin" d={inMargin} />
    </svg>
  );
}

/** Height of the middle of a note's first line below the top of its heading, in rem. */
const FIRST_LINE = 1.5;

/**
 * Straight to the gutter between picture and notes and along it, then over the margin to the note's first
 * line. Two paths: on the wall and in the margin.
 */
function leaderPaths(
  x: number,
  y: number,
  anchor: DOMRect,
  margin: DOMRect,
  below: boolean,
): [string, string] {
  const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  const noteY = anchor.top + FIRST_LINE * rem;
  const hidden = noteY < margin.top + 4 || noteY > margin.bottom - 4;
  const end = anchor.left - 6;
  if (!below) {
    const gutter = margin.left - 10;
    if (hidden) return [`M${x} ${y}H${gutter}`, ''];
    return [`M${x} ${y}H${gutter}V${noteY}H${margin.left}`, `M${margin.left} ${noteY}H${end}`];
  }
  if (hidden) return [`M${x} ${y}V${margin.top}`, ''];
  const left = margin.left + 8;
  return [`M${x} ${y}V${margin.top - 8}H${left}V${margin.top}`, `M${left} ${margin.top}V${noteY}H${end}`];
}

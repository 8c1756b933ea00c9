import type { Finding } from '@halflight/engine';
import type { CritiqueMark } from '@halflight/pages';
import { outlineOf } from '../../../parts/stage/places.ts';
import { beginTask } from '../../../parts/stage/task.ts';
import { sayOf } from '../../../state/class.ts';
import { type Critique, critiqueOf, type Point } from '../../../state/class-document.ts';
import { presentClass } from '../../../state/class-store.ts';
import { say, set } from '../../../state/session.ts';

/** Name of a point's note. */
export const noteOf = (id: string): string => `point ${id}`;

/** Outlines of a finding that are taken into a point. */
const TAKEN = 4;

/** The critique of a work as it stands. */
export function critiqueNow(work: string): Critique {
  return critiqueOf(presentClass(), work);
}

/** Changes what was said about a work; `words` follow "undo". */
export function change(work: string, words: string, by: (critique: Critique) => Critique): void {
  sayOf(work, by(critiqueNow(work)), words);
}

/** A new point; its note opens to be written. */
export function addPoint(work: string, point: Omit<Point, 'id'>, words: string): void {
  const id = crypto.randomUUID().slice(0, 8);
  change(work, words, (critique) => ({ ...critique, points: [...critique.points, { ...point, id }] }));
  set({ openNote: noteOf(id) });
}

export function changePoint(work: string, id: string, words: string, by: Partial<Point>): void {
  change(work, words, (critique) => ({
    ...critique,
    points: critique.points.map((point) => (point.id === id ? { ...point, ...by } : point)),
  }));
}

/** Draws a mark: for a point that is there, or for a new one. */
export function drawMark(work: string, kind: 'stroke' | 'outline' | 'pin', point?: Point): void {
  const words = {
    pin: 'Tap the place on the picture.',
    stroke: 'Draw the stroke on the picture, or tap its corners.',
    outline: 'Draw around the place, or tap its corners.',
  }[kind];
  say(words);
  beginTask({
    kind: kind === 'pin' ? 'spot' : kind,
    words,
    done: (points) => {
      const mark: CritiqueMark =
        kind === 'pin' ? { kind, at: [points[0], points[1]] } : { kind, points: thinned(points) };
      const named = { pin: 'a pin', stroke: 'a stroke', outline: 'an outline' }[kind];
      if (point) changePoint(work, point.id, named, { marks: [...point.marks, mark] });
      else addPoint(work, { kind: 'work', text: '', marks: [mark] }, named);
    },
  });
  document.querySelector<HTMLElement>('.stage')?.focus();
}

/** Takes a finding in as a point, with the outlines of its places; one without places gets a pin where it was dropped. */
export function takeFinding(work: string, finding: Finding, dropped?: readonly [number, number]): void {
  const { key, text, todo, places = [] } = finding;
  const outlines = places
    .slice(0, TAKEN)
    .map((place): CritiqueMark => ({ kind: 'outline', points: [...outlineOf(place)] }));
  const marks: CritiqueMark[] = outlines.length === 0 && dropped ? [{ kind: 'pin', at: dropped }] : outlines;
  addPoint(work, { kind: 'work', text: `${text} ${todo}`, marks, finding: key }, 'taking a finding in');
  say('The finding is taken in.');
}

/** So many corners are enough for a drawn line. */
const CORNERS = 120;

/** A drawn line with fewer corners, evenly chosen, its ends kept. */
function thinned(points: readonly number[]): number[] {
  const count = points.length / 2;
  if (count <= CORNERS) return points.map((value) => Number(value.toFixed(4)));
  return Array.from({ length: CORNERS }, (_, k) => Math.round((k * (count - 1)) / (CORNERS - 1))).flatMap(
    (at) => [Number(points[2 * at].toFixed(4)), Number(points[2 * at + 1].toFixed(4))],
  );
}

/** The mark moved by shares of the picture; it stays inside. */
export function moved(mark: CritiqueMark, dx: number, dy: number): CritiqueMark {
  const points = mark.kind === 'pin' ? mark.at : mark.points;
  const xs = points.filter((_, k) => k % 2 === 0);
  const ys = points.filter((_, k) => k % 2 === 1);
  const by = [
    Math.min(0.999 - Math.max(...xs), Math.max(-Math.min(...xs), dx)),
    Math.min(0.999 - Math.max(...ys), Math.max(-Math.min(...ys), dy)),
  ];
  const next = points.map((value, k) => value + by[k % 2]);
  return mark.kind === 'pin' ? { ...mark, at: [next[0], next[1]] } : { ...mark, points: next };
}

/** Where the number of a mark stands. */
export function anchorOf(mark: CritiqueMark): readonly [number, number] {
  if (mark.kind === 'pin') return mark.at;
  if (mark.kind === 'stroke') return [mark.points[0], mark.points[1]];
  let top = 0;
  for (let k = 2; k < mark.points.length; k += 2) if (mark.points[k + 1] < mark.points[top + 1]) top = k;
  return [mark.points[top], mark.points[top + 1]];
}

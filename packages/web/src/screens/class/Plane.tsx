import { type KeyboardEvent, type RefObject, useEffect, useRef, useState } from 'react';
import { routeHash } from '../../app/route.ts';
import { number } from '../../parts/ReadingDetails.tsx';
import type { ClassDocument, ClassWork } from '../../state/class-document.ts';
import { useSession } from '../../state/session.ts';
import type { ClassMeasure } from '../../workers/class/desk.ts';
import { nearestInDirection, pushApart } from './places.ts';
import { Small } from './Small.tsx';
import type { Plane as PlaneData, ReadEntry } from './statistics.ts';
import { pointAt, useClassView } from './view.ts';
import { calledOf } from './words.ts';

/** Part of the plane that all pictures together may cover, and the limits of their size in CSS pixels. */
const COVER = 0.34;
const LARGEST = 168;
const SMALLEST = 44;
/** Between pictures that would touch. */
const GAP = 8;

/** The class on the wall: small pictures where two readings place them. */
export function Plane({
  plane,
  entries,
  now,
  lit,
}: {
  plane: PlaneData;
  entries: readonly ReadEntry[];
  now: ClassDocument;
  /** Works that a note of the margin is about; null for no note. */
  lit: ReadonlySet<string> | null;
}) {
  const place = useRef<HTMLDivElement>(null);
  const { width, height } = useSize(place);
  const shown = entries.flatMap((entry, k) => {
    const at = plane.places[k];
    return at ? [{ ...entry, at }] : [];
  });
  const size = Math.min(
    LARGEST,
    Math.max(SMALLEST, Math.sqrt((COVER * width * height) / Math.max(1, shown.length) / 0.72)),
  );
  // A picture at the end of a scale still lies inside.
  const [roomX, roomY] = [Math.max(0, width - size), Math.max(0, height - 0.72 * size)];
  const centres = shown.map(({ at: { x, y } }) => ({
    x: size / 2 + x * roomX,
    y: 0.36 * size + (1 - y) * roomY,
  }));
  const seen = pushApart(centres, size + GAP, width, height);
  const band = intendedBand(now, plane);
  return (
    <div className="plane">
      <p className="plane-end">
        {labelOf(plane.upBy)}: {plane.upBy?.ends[1]}
      </p>
      <div ref={place} className="plane-place">
        <svg aria-hidden="true">
          {band.x && (
            <rect
              className="meant"
              x={size / 2 + band.x[0] * roomX}
              width={Math.max(1, (band.x[1] - band.x[0]) * roomX)}
              y={0}
              height={height}
            />
          )}
          {band.y && (
            <rect
              className="meant"
              x={0}
              width={width}
              y={0.36 * size + (1 - band.y[1]) * roomY}
              height={Math.max(1, (band.y[1] - band.y[0]) * roomY)}
            />
          )}
          {seen.map(({ x, y }, k) => (
            <g key={shown[k].work.id}>
              {Math.hypot(x - centres[k].x, y - centres[k].y) > size / 3 && (
                <line x1={x} y1={y} x2={centres[k].x} y2={centres[k].y} />
              )}
              <circle cx={centres[k].x} cy={centres[k].y} r={2.5} />
            </g>
          ))}
        </svg>
        <WorkStops
          label={`Works: to the right by ${labelOf(plane.acrossBy)}, upwards by ${labelOf(plane.upBy)}`}
        >
          {shown.map(({ work, read }, k) => (
            <li key={work.id} style={{ left: seen[k].x, top: seen[k].y, width: size, height: size }}>
              <WorkStop
                work={work}
                first={k === 0}
                lit={lit === null ? undefined : lit.has(work.id)}
                words={`${calledOf(work)}: ${labelOf(plane.acrossBy)} ${numberOn(plane.acrossBy, read.values)}, ${labelOf(plane.upBy)} ${numberOn(plane.upBy, read.values)}. ${read.findings[0]?.text ?? 'No note.'}`}
                read
              />
            </li>
          ))}
        </WorkStops>
      </div>
      <p className="plane-end">{plane.upBy?.ends[0]}</p>
      <p className="plane-across">
        <span>{plane.acrossBy?.ends[0]}</span>
        <span>{labelOf(plane.acrossBy)}</span>
        <span>{plane.acrossBy?.ends[1]}</span>
      </p>
    </div>
  );
}

const labelOf = (measure: ClassMeasure | undefined): string => measure?.label ?? '';

function numberOn(
  measure: ClassMeasure | undefined,
  values: Readonly<Record<string, number | null>>,
): string {
  const value = measure && values[measure.name];
  return value == null ? 'unknown' : `${number(value, measure?.digits ?? 2)} ${measure?.unit ?? ''}`.trim();
}

/** A list of works in which arrow keys lead to the nearest one in their direction. */
export function WorkStops({ label, children }: { label: string; children: React.ReactNode }) {
  const onKeyDown = (event: KeyboardEvent<HTMLUListElement>): void => {
    const stops = [...event.currentTarget.querySelectorAll<HTMLElement>('[data-stop]')];
    const from = stops.indexOf(document.activeElement as HTMLElement);
    const centres = stops.map((stop) => {
      const { left, top, width, height } = stop.getBoundingClientRect();
      return { x: left + width / 2, y: top + height / 2 };
    });
    const to = nearestInDirection(centres, from, event.key);
    if (from < 0 || !event.key.startsWith('Arrow')) return;
    if (to !== null) stops[to].focus();
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <ul className="stops" aria-label={label} onKeyDown={onKeyDown}>
      {children}
    </ul>
  );
}

/** One work that leads to its critique. */
export function WorkStop({
  work,
  first,
  lit,
  words,
  read,
  children,
}: {
  work: ClassWork;
  /** The one that the tab key comes to. */
  first: boolean;
  lit: boolean | undefined;
  words: string;
  read: boolean;
  children?: React.ReactNode;
}) {
  const last = useClassView(({ pointed }) => pointed === work.id);
  return (
    <a
      href={routeHash({ screen: 'class', of: work.id })}
      className="stop"
      data-stop={work.id}
      data-lit={lit}
      tabIndex={first || last ? 0 : -1}
      aria-label={words}
      onPointerEnter={(event) => event.pointerType === 'mouse' && pointAt(work.id)}
      onFocus={() => pointAt(work.id)}
      draggable={false}
    >
      <Small id={work.id} read={read} />
      {children}
    </a>
  );
}

/** What is pointed at, in words below the class. */
export function PointedLine({ entries }: { entries: readonly ReadEntry[] }) {
  const pointed = useClassView((view) => view.pointed);
  const said = useSession((session) => session.route.screen === 'class');
  const entry = entries.find(({ work }) => work.id === pointed);
  return (
    <footer className="nearness">
      <p>
        {entry && said
          ? `${calledOf(entry.work)}: ${entry.read.findings[0]?.text ?? 'No note is open.'}`
          : 'Point at a work to read what stands first; open it to write on it. Arrow keys go from work to work.'}
      </p>
    </footer>
  );
}

/** The intended range on each scale that is an axis of the decided mood, in shares of the plane. */
function intendedBand({ intent }: ClassDocument, { acrossBy, upBy, across, up }: PlaneData) {
  const bandOf = (
    measure: ClassMeasure | undefined,
    [from, to]: readonly [number, number],
  ): [number, number] | null => {
    const [reading, key] = measure?.name.split('.') ?? [];
    const target = reading === 'mood' ? intent.mood?.axes[key as 'key'] : undefined;
    if (!target) return null;
    const share = (value: number): number => Math.min(1, Math.max(0, (value - from) / (to - from)));
    return [share(target.at - target.tolerance), share(target.at + target.tolerance)];
  };
  return { x: bandOf(acrossBy, across), y: bandOf(upBy, up) };
}

function useSize(ref: RefObject<HTMLElement | null>): { width: number; height: number } {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const measure = (): void => setSize({ width: element.clientWidth, height: element.clientHeight });
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    measure();
    return () => observer.disconnect();
  }, [ref]);
  return size;
}

import type { Finding } from '@halflight/engine';
import type { PlaceReading } from '../../picture/desk.ts';
import { outlineOf, outlinePath } from './places.ts';
import type { Size, StageView } from './view.ts';

/** More outlines than this say nothing more. */
const MOST = 24;

/** What is drawn over the picture in hairlines: outlines of places, the place that was read, the mark of the keyboard. */
export function Marks({
  view,
  size,
  finding,
  place,
  cross,
  drawn,
  pairs,
}: {
  view: StageView;
  size: Size;
  finding: Finding | null;
  place: PlaceReading | null;
  cross: { x: number; y: number } | null;
  /** Corners of what is being drawn, x and y in turn. */
  drawn: readonly number[];
  /** Places that the one that was read is compared with. */
  pairs: readonly { readonly x: number; readonly y: number }[];
}) {
  const width = size.width * view.scale;
  const height = size.height * view.scale;
  const places = (finding?.places ?? []).slice(0, MOST);
  return (
    <svg className="marks" aria-hidden="true">
      <g transform={`translate(${view.x} ${view.y})`}>
        {places.map((it) => {
          const path = outlinePath(outlineOf(it), width, height);
          return (
            <g key={path}>
              <path className="halo" d={path} />
              <path className="line" d={path} />
            </g>
          );
        })}
        {place &&
          pairs.map((pair) => (
            <Thread
              key={`${pair.x} ${pair.y}`}
              from={{ x: place.x * width, y: place.y * height }}
              to={{ x: pair.x * width, y: pair.y * height }}
            />
          ))}
        {place && <Ring x={place.x * width} y={place.y * height} />}
        {drawn.length > 0 && <Drawn points={drawn} width={width} height={height} />}
        {cross && <Cross x={cross.x * width} y={cross.y * height} />}
      </g>
    </svg>
  );
}

function Ring({ x, y }: { x: number; y: number }) {
  return (
    <g data-mark="place">
      <circle className="halo" cx={x} cy={y} r={8} />
      <circle className="line" cx={x} cy={y} r={8} />
    </g>
  );
}

/** A line from the place that was read to one it is compared with, between their rings. */
function Thread({ from, to }: { from: { x: number; y: number }; to: { x: number; y: number } }) {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length < 14) return null;
  const at = (part: number): string =>
    `${from.x + (to.x - from.x) * part} ${from.y + (to.y - from.y) * part}`;
  const path = `M${at(8 / length)}L${at(1 - 4 / length)}`;
  return (
    <g data-mark="pair">
      <path className="halo" d={path} />
      <path className="line" d={path} />
      <circle className="halo" cx={to.x} cy={to.y} r={4} />
      <circle className="line" cx={to.x} cy={to.y} r={4} />
    </g>
  );
}

function Drawn({ points, width, height }: { points: readonly number[]; width: number; height: number }) {
  const at = (i: number): string => `${points[2 * i] * width} ${points[2 * i + 1] * height}`;
  const count = points.length / 2;
  const path = Array.from({ length: count }, (_, i) => `${i === 0 ? 'M' : 'L'}${at(i)}`).join('');
  const last = { x: points[2 * count - 2] * width, y: points[2 * count - 1] * height };
  return (
    <g data-mark="drawn">
      <path className="halo" d={path} />
      <path className="line" d={path} />
      <circle className="halo" cx={last.x} cy={last.y} r={3} />
      <circle className="line" cx={last.x} cy={last.y} r={3} />
    </g>
  );
}

function Cross({ x, y }: { x: number; y: number }) {
  const path = `M${x - 14} ${y}H${x - 4}M${x + 4} ${y}H${x + 14}M${x} ${y - 14}V${y - 4}M${x} ${y + 4}V${y + 14}`;
  return (
    <g data-mark="cross">
      <path className="halo" d={path} />
      <path className="line" d={path} />
    </g>
  );
}

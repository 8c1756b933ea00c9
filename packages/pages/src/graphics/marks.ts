import { SIZE } from '../page/greys.ts';
import type { Mark } from '../page/page.ts';
import type { Item } from '../sheet/items.ts';

/** Radius of a pin. */
export const PIN = 11;

/** Dark on light, so that a line is seen on any painting and has no colour of its own. */
const CORE = '#111111';
const HALO = '#ffffff';

/** Marks on a picture that stands at x, y. */
export function markItems(
  marks: readonly Mark[],
  x: number,
  y: number,
  width: number,
  height: number,
): Item[] {
  const lines = marks.flatMap((mark): Item[] => {
    if (mark.kind === 'pin' || mark.points.length < 4) return [];
    const d = markPath(mark, width, height, x, y);
    return [
      { kind: 'path', d, stroke: HALO, strokeWidth: 3.5 },
      { kind: 'path', d, stroke: CORE, strokeWidth: 1.5 },
    ];
  });
  const pins = marks.flatMap(({ kind, points, label = '' }): Item[] => {
    if (kind !== 'pin' && label === '') return [];
    const [px, py] = pinPlace(points);
    const cx = x + Math.min(width - PIN, Math.max(PIN, px * width));
    const cy = y + Math.min(height - PIN, Math.max(PIN, py * height));
    // Without a number it is a ring, which hides nothing of the place.
    if (label === '')
      return [
        { kind: 'circle', cx, cy, r: PIN, stroke: HALO, strokeWidth: 4 },
        { kind: 'circle', cx, cy, r: PIN, stroke: CORE, strokeWidth: 1.5 },
      ];
    return [
      { kind: 'circle', cx, cy, r: PIN, fill: CORE, stroke: HALO, strokeWidth: 1.5 },
      {
        kind: 'text',
        text: label,
        x: cx,
        y: cy + 4.2,
        anchor: 'middle',
        size: SIZE.caption,
        weight: 'strong',
        fill: HALO,
      },
    ];
  });
  return [...lines, ...pins];
}

/** Where the number of a mark stands: at its first place. */
export const pinPlace = (points: readonly number[]): [number, number] => [points[0] ?? 0.5, points[1] ?? 0.5];

/** Path of a stroke or an outline at this size. */
export function markPath({ kind, points }: Mark, width: number, height: number, x = 0, y = 0): string {
  let d = '';
  for (let i = 0; i + 1 < points.length; i += 2)
    d += `${i === 0 ? 'M' : 'L'}${two(x + points[i] * width)} ${two(y + points[i + 1] * height)}`;
  return kind === 'outline' ? `${d}Z` : d;
}

const two = (v: number): number => Math.round(100 * v) / 100;

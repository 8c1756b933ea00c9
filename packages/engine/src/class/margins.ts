import type { Raster } from '../views/raster.ts';

/** A rectangle in pixels. */
export interface Window {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Places looked at in a row or column. */
const SAMPLES = 480;
/** A row of a screen's margin is to more than this share of one code value; a row of a painting to less than that. */
const FLAT = 0.5;
const PAINTED = 0.2;
/** Part of a margin's rows that must be flat. */
const EVEN = 0.7;
/** Rows over which a margin must end. */
const ABRUPT = 3;
/** What a screenshot must show at least: signs in its margins, margin at all, and picture. Our defaults. */
const SIGNS = [0.002, 0.45] as const;
const LEAST_MARGIN = 0.03;
const LEAST_PICTURE = 0.2;

/**
 * The picture inside a screenshot: surrounded by flat margins in which there are signs (a clock, a name, buttons), and
 * which end abruptly. A margin without any sign may be the painter's own and stays.
 *
 * @returns null when there are no such margins, which a few rows tell for most pictures
 */
export function windowInScreenshot(raster: Raster): Window | null {
  const { width, height } = raster;
  const whole: Window = { x: 0, y: 0, width, height };
  const top = marginOf(raster, whole, 'top');
  const bottom = top < height ? marginOf(raster, whole, 'bottom') : 0;
  const between: Window = { x: 0, y: top, width, height: height - top - bottom };
  if (between.height < 0.2 * height) return null;
  const left = marginOf(raster, between, 'left');
  const right = left < width ? marginOf(raster, between, 'right') : 0;
  const inside: Window = { ...between, x: left, width: width - left - right };
  const area = inside.width > 0 ? (inside.width * inside.height) / (width * height) : 0;
  if (area < LEAST_PICTURE || area > 1 - LEAST_MARGIN) return null;
  const signs = signsAround(raster, inside);
  return signs >= SIGNS[0] && signs <= SIGNS[1] ? inside : null;
}

type Edge = 'top' | 'bottom' | 'left' | 'right';

/** How many rows (or columns) from an edge on are margin; 0 when it does not end abruptly. */
function marginOf(raster: Raster, area: Window, edge: Edge): number {
  const upright = edge === 'top' || edge === 'bottom';
  const count = upright ? area.height : area.width;
  const flat = (k: number): number =>
    flatness(raster, area, upright, edge === 'top' || edge === 'left' ? k : count - 1 - k);
  // A row with much writing in it is less flat than the others, and still nothing like painting.
  const rows: boolean[] = [];
  for (let share = flat(0); rows.length < count && share > PAINTED; share = flat(rows.length))
    rows.push(share > FLAT);
  const even = rows.filter(Boolean).length;
  const abrupt = rows.slice(-ABRUPT).some(Boolean);
  return rows.length < count && even >= EVEN * rows.length && abrupt ? rows.length : 0;
}

/** Share of the commonest code value in a row or column. */
function flatness({ width, channels, data }: Raster, area: Window, row: boolean, k: number): number {
  const length = row ? area.width : area.height;
  const n = Math.min(SAMPLES, length);
  const counts = new Map<number, number>();
  let most = 0;
  for (let s = 0; s < n; s++) {
    const along = Math.floor(((s + 0.5) * length) / n);
    const [x, y] = row ? [area.x + along, area.y + k] : [area.x + k, area.y + along];
    const i = channels * (y * width + x);
    const code = (data[i] * 65536 + data[i + 1]) * 65536 + data[i + 2];
    const seen = (counts.get(code) ?? 0) + 1;
    counts.set(code, seen);
    if (seen > most) most = seen;
  }
  return most / n;
}

/** Share of the margins that is not of its row's or column's own flat colour. */
function signsAround(raster: Raster, inside: Window): number {
  const { width, height } = raster;
  let [signs, rows] = [0, 0];
  const add = (area: Window, row: boolean): void => {
    const count = row ? area.height : area.width;
    if (Math.min(area.width, area.height) < 1) return;
    for (let k = 0; k < count; k++) {
      const weight = row ? area.width : area.height;
      signs += weight * (1 - flatness(raster, area, row, k));
      rows += weight;
    }
  };
  add({ x: 0, y: 0, width, height: inside.y }, true);
  add({ x: 0, y: inside.y + inside.height, width, height: height - inside.y - inside.height }, true);
  add({ x: 0, y: inside.y, width: inside.x, height: inside.height }, false);
  add(
    {
      x: inside.x + inside.width,
      y: inside.y,
      width: width - inside.x - inside.width,
      height: inside.height,
    },
    false,
  );
  return rows > 0 ? signs / rows : 0;
}

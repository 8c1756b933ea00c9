import { joinedAreas } from '../numbers/components.ts';
import type { SmallLab } from './small.ts';
import { medianOf } from './statistics.ts';

/** What lies on an even ground. */
export interface Figure {
  /** 1 inside, by cell. */
  readonly mask: Uint8Array;
  readonly cells: number;
}

/** Part of the rim that must belong to the ground. */
const EVEN_RIM = 0.93;
/** Colour differences (ΔE_OK) that still belong to the ground, at least and at most. */
const LEAST = 0.035;
const MOST = 0.09;

/** Whether the rim looks like one ground at all: false for most paintings, and told without the rest of them. */
export function hasEvenRim(small: SmallLab): boolean {
  const rim = rimCells(small.width, small.height);
  const off = distanceTo(small, fitGround(small, rim));
  return rim.filter((cell) => off(cell) < MOST).length >= EVEN_RIM * rim.length;
}

/**
 * Separates what lies on an even ground (a table, a wall, a desktop) from it. The ground is a plane in x and y for
 * each coordinate of OKLab, fitted to the rim, so that a fall-off of the lamp does not matter.
 *
 * @returns null when the rim is not even: the usual case, told from the rim alone
 */
export function figureOnGround(small: SmallLab): Figure | null {
  const { width, height } = small;
  const rim = rimCells(width, height);
  let off = distanceTo(small, fitGround(small, rim));
  const near = rim.filter((cell) => off(cell) < MOST);
  if (near.length < EVEN_RIM * rim.length) return null;
  off = distanceTo(small, fitGround(small, near));
  const noise = medianOf(near.map(off));
  const limit = Math.min(MOST, Math.max(LEAST, 5 * noise));
  if (near.filter((cell) => off(cell) < limit).length < EVEN_RIM * rim.length) return null;
  return largestInside(width, height, near, (cell) => off(cell) < limit);
}

/** How far a cell is from the ground, ΔE_OK. */
function distanceTo(
  { width, lab }: SmallLab,
  model: readonly (readonly number[])[],
): (cell: number) => number {
  return (cell) => {
    const x = cell % width;
    const y = (cell - x) / width;
    let sum = 0;
    for (let c = 0; c < 3; c++) {
      const d = lab[3 * cell + c] - (model[c][0] + model[c][1] * x + model[c][2] * y);
      sum += d * d;
    }
    return Math.sqrt(sum);
  };
}

function rimCells(width: number, height: number): number[] {
  const cells: number[] = [];
  for (let x = 0; x < width; x++) cells.push(x, (height - 1) * width + x);
  for (let y = 1; y < height - 1; y++) cells.push(y * width, y * width + width - 1);
  return cells;
}

/** Least squares of a + b·x + c·y for each coordinate. */
function fitGround({ width, lab }: SmallLab, cells: readonly number[]): number[][] {
  const n = cells.length;
  let [mx, my] = [0, 0];
  for (const cell of cells) {
    mx += (cell % width) / n;
    my += Math.floor(cell / width) / n;
  }
  let [xx, xy, yy] = [0, 0, 0];
  for (const cell of cells) {
    const [x, y] = [(cell % width) - mx, Math.floor(cell / width) - my];
    xx += x * x;
    xy += x * y;
    yy += y * y;
  }
  const det = xx * yy - xy * xy;
  return [0, 1, 2].map((c) => {
    let [mean, xv, yv] = [0, 0, 0];
    for (const cell of cells) mean += lab[3 * cell + c] / n;
    for (const cell of cells) {
      const v = lab[3 * cell + c] - mean;
      xv += v * ((cell % width) - mx);
      yv += v * (Math.floor(cell / width) - my);
    }
    const b = det > 0 ? (xv * yy - yv * xy) / det : 0;
    const d = det > 0 ? (yv * xx - xv * xy) / det : 0;
    return [mean - b * mx - d * my, b, d];
  });
}

/** The ground itself: places like it that hang together with the rim; and what is left of the picture, its largest part. */
function largestInside(
  width: number,
  height: number,
  seeds: readonly number[],
  ground: (cell: number) => boolean,
): Figure | null {
  const even = joinedAreas(width, height, ground);
  const rim = new Set(seeds.map((cell) => even.labels[cell]));
  const { labels, areas } = joinedAreas(width, height, (cell) => {
    const label = even.labels[cell];
    return label < 0 || !rim.has(label);
  });
  if (areas.length === 0) return null;
  let best = 0;
  for (const [k, { size }] of areas.entries()) if (size > areas[best].size) best = k;
  return { mask: Uint8Array.from(labels, (label) => (label === best ? 1 : 0)), cells: areas[best].size };
}

import { fillOutlines } from '../areas/outline.ts';

/** Places per side of the grid on which a spot is looked for. */
const GRID = 96;

/** A rectangle in pixels. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * Where a rectangle of a given size lies best in an outline: as deep inside as it gets, and clear of others.
 *
 * @param outline x and y in turn, in pixels
 * @param taken boxes that are to stay visible
 * @returns its upper left corner, kept inside the picture
 */
export function findSpot(
  outline: readonly number[],
  size: { readonly width: number; readonly height: number },
  picture: { readonly width: number; readonly height: number },
  taken: readonly Box[],
): Box {
  const xs = outline.filter((_, i) => i % 2 === 0);
  const ys = outline.filter((_, i) => i % 2 === 1);
  // Looked for around the outline too, for places smaller than their swatches.
  const x0 = Math.min(...xs) - size.width;
  const y0 = Math.min(...ys) - size.height;
  const w = Math.max(...xs) + size.width - x0;
  const h = Math.max(...ys) + size.height - y0;
  const local = outline.map((v, i) => (i % 2 === 0 ? (v - x0) / w : (v - y0) / h));
  const { data } = fillOutlines([local], GRID, GRID);
  const sums = summed(data);
  const bw = Math.max(1, Math.round((size.width / w) * GRID));
  const bh = Math.max(1, Math.round((size.height / h) * GRID));
  const hold = (v: number, room: number): number => Math.round(Math.min(Math.max(0, room), Math.max(0, v)));
  let best: Box | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (let j = 0; j + bh <= GRID; j++)
    for (let i = 0; i + bw <= GRID; i++) {
      const box = {
        x: hold(x0 + (i / GRID) * w, picture.width - size.width),
        y: hold(y0 + (j / GRID) * h, picture.height - size.height),
        ...size,
      };
      const covered = within(sums, i, j, bw, bh) / (bw * bh);
      // Of spots that are covered alike, the one with most of the place around it.
      const around = within(sums, i - bw / 2, j - bh / 2, 2 * bw, 2 * bh) / (4 * bw * bh);
      const score = covered + 0.3 * around - (taken.some((other) => overlap(box, other)) ? 2 : 0);
      if (score > most) {
        most = score;
        best = box;
      }
    }
  return (
    best ?? { x: hold(x0, picture.width - size.width), y: hold(y0, picture.height - size.height), ...size }
  );
}

export function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

/** Sums over all places above and left, with a border of zeros. */
function summed(data: Float32Array): Float64Array {
  const n = GRID + 1;
  const sums = new Float64Array(n * n);
  for (let y = 0; y < GRID; y++)
    for (let x = 0; x < GRID; x++)
      sums[(y + 1) * n + x + 1] =
        data[y * GRID + x] + sums[y * n + x + 1] + sums[(y + 1) * n + x] - sums[y * n + x];
  return sums;
}

function within(sums: Float64Array, x: number, y: number, w: number, h: number): number {
  const n = GRID + 1;
  const at = (u: number, v: number): number => {
    const i = Math.min(GRID, Math.max(0, Math.round(u)));
    const j = Math.min(GRID, Math.max(0, Math.round(v)));
    return sums[j * n + i];
  };
  return at(x + w, y + h) - at(x, y + h) - at(x + w, y) + at(x, y);
}

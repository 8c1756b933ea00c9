import { type Field, outlineOf, type Place } from '@halflight/engine';

/** Longest side of the grid that places are found on: an outline is a gesture, not a cut-out. */
const GRID = 200;
/** What is nearer than this on the grid belongs together: water seen between piles is one place. */
const REACH = 2;
/** From this part of flagged surroundings on a spot belongs to a place. */
const DENSE = 0.3;
/** Smaller places are specks, in shares of the picture. Our default. */
const SPECK = 0.002;
/** More places than these say nothing more. */
const MOST = 6;
/** Simplification of outlines, in places of the grid. */
const TOLERANCE = 1.1;

/** The separate places that a map flags, the largest first, each with its outline. */
export function placesOf(map: Field): Place[] {
  const { width, height, data } = reduce(map);
  const near = soften(soften(data, width, height), width, height);
  const dense = Uint8Array.from(near, (part) => (part >= DENSE ? 1 : 0));
  const mark = new Int32Array(width * height);
  const sizes: number[] = [];
  for (let p = 0; p < mark.length; p++) {
    if (dense[p] && mark[p] === 0) sizes.push(flood(dense, data, mark, width, p, sizes.length + 1));
  }
  return sizes
    .map((size, index) => ({ id: index + 1, share: size / mark.length }))
    .filter(({ share }) => share >= SPECK)
    .sort((a, b) => b.share - a.share)
    .slice(0, MOST)
    .map(({ id, share }) => placeOfMark(mark, width, height, id, share));
}

/** The map on the grid: the mean of what each place of it covers. */
function reduce({ width, height, data }: Field): Field {
  const scale = Math.min(1, GRID / Math.max(width, height));
  const [w, h] = [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
  const sum = new Float32Array(w * h);
  const count = new Float32Array(w * h);
  for (let y = 0; y < height; y++) {
    const row = Math.min(h - 1, Math.floor((y * h) / height)) * w;
    for (let x = 0; x < width; x++) {
      const p = row + Math.min(w - 1, Math.floor((x * w) / width));
      sum[p] += data[y * width + x];
      count[p]++;
    }
  }
  return { width: w, height: h, data: sum.map((value, p) => value / count[p]) };
}

/** The mean over a square around each place; beside the map there is nothing, which counts as nothing. */
function soften(data: Float32Array, width: number, height: number): Float32Array {
  const rows = new Float32Array(data.length);
  const out = new Float32Array(data.length);
  const side = 2 * REACH + 1;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (let k = Math.max(0, x - REACH); k <= Math.min(width - 1, x + REACH); k++)
        sum += data[y * width + k];
      rows[y * width + x] = sum / side;
    }
  }
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (let k = Math.max(0, y - REACH); k <= Math.min(height - 1, y + REACH); k++)
        sum += rows[k * width + x];
      out[y * width + x] = sum / side;
    }
  }
  return out;
}

/** Marks all that hangs together with a place, across corners too, and says how much of the map is in it. */
function flood(
  dense: Uint8Array,
  data: Float32Array,
  mark: Int32Array,
  width: number,
  start: number,
  id: number,
): number {
  const stack = [start];
  mark[start] = id;
  let size = 0;
  for (let p = stack.pop(); p !== undefined; p = stack.pop()) {
    size += data[p];
    const x = p % width;
    for (const dy of [-width, 0, width]) {
      for (let dx = x > 0 ? -1 : 0; dx <= (x < width - 1 ? 1 : 0); dx++) {
        const q = p + dy + dx;
        if (q < 0 || q >= mark.length || !dense[q] || mark[q] !== 0) continue;
        mark[q] = id;
        stack.push(q);
      }
    }
  }
  return size;
}

function placeOfMark(mark: Int32Array, width: number, height: number, id: number, share: number): Place {
  const outline = outlineOf(mark, width, height, id, TOLERANCE).map((value, index) =>
    index % 2 === 0 ? value / width : value / height,
  );
  const xs = outline.filter((_, index) => index % 2 === 0);
  const ys = outline.filter((_, index) => index % 2 === 1);
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y, share, outline };
}

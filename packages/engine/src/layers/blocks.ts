import type { PaintedLayer } from './stack.ts';

/** The pixels of a layer and where they lie. */
export type Pixels = Pick<PaintedLayer, 'raster' | 'x' | 'y'>;

/** A rectangle of the canvas. */
export interface Part {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** A row of blocks, from column `first` on: mean code value times alpha, and mean alpha, as code values. */
export interface Blocks {
  readonly first: number;
  readonly sums: Float64Array;
}

/** Makes the rows of blocks of pixels of the canvas, as far as there is paint. */
export function blocksOf(
  { raster, x, y }: Pixels,
  canvas: { width: number; height: number },
  part: Part,
  size: { readonly x: number; readonly y: number },
): (row: number) => Blocks {
  const { data, channels } = raster;
  const full = 2 ** raster.depth - 1;
  const first = Math.floor(part.x0 / size.x);
  const count = Math.max(0, Math.ceil(part.x1 / size.x) - first);
  const sums = new Float64Array(4 * (count + 2 * BESIDE));
  const blocks = { first, sums };
  const words = channels === 4 ? wordsOf(data) : null;
  const deep = channels === 4 && data instanceof Uint16Array ? data : null;
  return (row) => {
    const from = Math.max(part.y0, row * size.y);
    const to = Math.min(part.y1, (row + 1) * size.y);
    const rows = Math.min(canvas.height, (row + 1) * size.y) - row * size.y;
    const isPair = size.x === 2 && to - from === 2;
    for (let at = 4 * BESIDE, k = first + 1, u = part.x0; u < part.x1; at += 4, k++) {
      const end = Math.min(part.x1, k * size.x);
      const by = 1 / (rows * (Math.min(canvas.width, k * size.x) - (k - 1) * size.x));
      const start = (from - y) * raster.width + u - x;
      if (isPair && words && end - u === 2) four(words, start, start + raster.width, sums, at, by);
      else if (isPair && deep && end - u === 2)
        fourDeep(deep, 4 * start, 4 * (start + raster.width), sums, at, by);
      else block(start, end - u, to - from, at, by);
      u = end;
    }
    return blocks;
  };

  function block(start: number, width: number, height: number, at: number, by: number): void {
    let r = 0;
    let g = 0;
    let b = 0;
    let a = 0;
    for (let v = 0, from = start; v < height; v++, from += raster.width)
      if (words)
        for (let i = from; i < from + width; i++) {
          const word = words[i];
          const code = word >>> 24;
          if (code === 0) continue;
          r += code * (word & 0xff);
          g += code * ((word >>> 8) & 0xff);
          b += code * ((word >>> 16) & 0xff);
          a += code;
        }
      else
        for (let j = channels * from; j < channels * (from + width); j += channels) {
          const code = channels === 4 ? data[j + 3] : full;
          if (code === 0) continue;
          r += code * data[j];
          g += code * data[j + 1];
          b += code * data[j + 2];
          a += code;
        }
    sums[at] = by * r;
    sums[at + 1] = by * g;
    sums[at + 2] = by * b;
    sums[at + 3] = by * a;
  }
}

/** The same for a block of two by two 8-bit pixels, the most frequent: a large picture at the close view. */
function four(words: Int32Array, i: number, j: number, sums: Float64Array, at: number, by: number): void {
  const p = words[i];
  const q = words[i + 1];
  const s = words[j];
  const t = words[j + 1];
  const ap = p >>> 24;
  const aq = q >>> 24;
  const as = s >>> 24;
  const az = t >>> 24;
  const a = ap + aq + as + az;
  sums[at + 3] = by * a;
  if (a === 0) {
    sums[at] = 0;
    sums[at + 1] = 0;
    sums[at + 2] = 0;
    return;
  }
  sums[at] = by * (ap * (p & 0xff) + aq * (q & 0xff) + as * (s & 0xff) + az * (t & 0xff));
  sums[at + 1] =
    by *
    (ap * ((p >>> 8) & 0xff) + aq * ((q >>> 8) & 0xff) + as * ((s >>> 8) & 0xff) + az * ((t >>> 8) & 0xff));
  sums[at + 2] =
    by *
    (ap * ((p >>> 16) & 0xff) +
      aq * ((q >>> 16) & 0xff) +
      as * ((s >>> 16) & 0xff) +
      az * ((t >>> 16) & 0xff));
}

/** Empty blocks on either side: averages reach over the painted ones. */
export const BESIDE = 3;

/** Four 8-bit codes as one word, the first lowest; null for other data. */
function wordsOf(data: Uint8Array | Uint16Array): Int32Array | null {
  if (data instanceof Uint16Array || data.byteOffset % 4 !== 0) return null;
  const words = new Int32Array(data.buffer, data.byteOffset, data.length >> 2);
  return LITTLE_ENDIAN ? words : null;
}

const LITTLE_ENDIAN = new Uint8Array(Int32Array.of(1).buffer)[0] === 1;

/** The same of 16-bit pixels: the close view at the size that worth is measured at. */
function fourDeep(data: Uint16Array, i: number, j: number, sums: Float64Array, at: number, by: number): void {
  const ap = data[i + 3];
  const aq = data[i + 7];
  const as = data[j + 3];
  const az = data[j + 7];
  const a = ap + aq + as + az;
  sums[at + 3] = by * a;
  if (a === 0) {
    sums[at] = 0;
    sums[at + 1] = 0;
    sums[at + 2] = 0;
    return;
  }
  for (let c = 0; c < 3; c++)
    sums[at + c] = by * (ap * data[i + c] + aq * data[i + 4 + c] + as * data[j + c] + az * data[j + 4 + c]);
}

import { flatTaps, type Taps } from '../views/spans.ts';
import { narrowCovered, narrowOpaque } from '../views/weigh.ts';
import type { Box } from './sizePlan.ts';

const LOBES = 3;

/**
 * Weights of a change of size with Lanczos' window of three lobes (Duchon 1979, "Lanczos filtering in one and two
 * dimensions"; Turkowski 1990 for pictures), widened by the reduction, so that detail finer than the new pixels is
 * averaged away instead of folding into patterns. Beyond the border the outermost place goes on.
 *
 * @param source places that there are
 * @param start where the shown part begins, `length` how long it is, in places
 * @param size places to make
 */
export function lanczosTaps(source: number, start: number, length: number, size: number): Taps {
  const step = length / size;
  const wide = Math.max(1, step);
  return Array.from({ length: size }, (_, i) => {
    const centre = start + (i + 0.5) * step - 0.5;
    const low = Math.ceil(centre - LOBES * wide);
    const high = Math.floor(centre + LOBES * wide);
    const from = Math.min(source - 1, Math.max(0, low));
    const to = Math.min(source - 1, Math.max(0, high));
    const weights = new Float64Array(to - from + 1);
    let sum = 0;
    for (let x = low; x <= high; x++) {
      const weight = lanczos((x - centre) / wide);
      weights[Math.min(to, Math.max(from, x)) - from] += weight;
      sum += weight;
    }
    return { from, weights: weights.map((w) => w / sum) };
  });
}

function lanczos(x: number): number {
  if (x === 0) return 1;
  if (Math.abs(x) >= LOBES) return 0;
  const a = Math.PI * x;
  return (LOBES * Math.sin(a) * Math.sin(a / LOBES)) / (a * a);
}

/** Rows of linear light, `width × planes` numbers; colours are premultiplied where the fourth plane is alpha. */
export type LightRow = (y: number, out: Float64Array | Float32Array) => void;

/**
 * A picture in another size, made row after row from top to bottom: only the rows under the filter are kept, so that
 * a picture of any height goes through in little memory.
 *
 * @returns fills a row of the new picture; rows are to be asked for in rising order, or from the top again
 */
export function resizedRows(
  source: { readonly width: number; readonly height: number; readonly planes: 3 | 4; readonly row: LightRow },
  part: Box,
  width: number,
  height: number,
): LightRow {
  const { planes } = source;
  const columns = flatTaps(lanczosTaps(source.width, part.x, part.width, width));
  const rows = lanczosTaps(source.height, part.y, part.height, height);
  const most = rows.reduce((n, { weights }) => Math.max(n, weights.length), 0);
  const ring = Array.from({ length: most }, () => new Float32Array(planes * width));
  const wide = new Float32Array(planes * source.width);
  const narrow = planes === 4 ? narrowCovered : narrowOpaque;
  let next = 0;
  return (y, out) => {
    const { from, weights } = rows[y];
    if (y === 0 || next > from + most) next = from;
    for (next = Math.max(next, from); next < from + weights.length; next++) {
      source.row(next, wide);
      narrow(wide, 0, columns, ring[next % most], 0);
    }
    addRows(weights, (k) => ring[(from + k) % most], out);
  };
}

/** Weighs rows into one, four at a time: each number of the sum is then touched a quarter as often. */
function addRows(
  weights: Float64Array,
  rowAt: (k: number) => Float32Array,
  out: Float64Array | Float32Array,
): void {
  const last = weights.length - 1;
  out.fill(0);
  for (let k = 0; k <= last; k += 4) {
    // Beyond the last weight its row is counted with none.
    const [one, two, three, four] = [k, k + 1, k + 2, k + 3].map((i) => rowAt(Math.min(i, last)));
    const [p, q, r, s] = [k, k + 1, k + 2, k + 3].map((i) => (i <= last ? weights[i] : 0));
    for (let i = 0; i < out.length; i++) out[i] += p * one[i] + q * two[i] + r * three[i] + s * four[i];
  }
}

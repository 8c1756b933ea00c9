import type { Raster } from '../views/raster.ts';

/**
 * How finely code values are told apart: 64 × 64 × 64 cells of 6 bits a channel, and where a cell holds much of
 * the picture 4 × 4 × 4 branches of two more bits each, down to 12 bits.
 *
 * `next[i]` is the place of the first of 64 branches of cell or branch i, 0 for a leaf.
 */
export interface Forest {
  readonly roots: number;
  readonly next: Int32Array;
}

const ROOTS = 2 ** 18;
const DEEPEST = 12;
const SAMPLES = 2 ** 17;
// The golden section spreads the sample evenly over any picture, whatever pattern it has.
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Grows the forest on an even sample of the pixels (all of them when they are few). */
export function growForest(raster: Raster, limit: number, chosen?: Uint8Array): Forest {
  const { data, channels, depth } = raster;
  const pixels = raster.width * raster.height;
  const size = Math.min(pixels, SAMPLES);
  const sample = new Int32Array(3 * size);
  let taken = 0;
  for (let k = 0; k < size; k++) {
    const p = size === pixels ? k : Math.floor(((k * GOLDEN) % 1) * pixels);
    const i = p * channels;
    if ((chosen && !chosen[p]) || (channels === 4 && data[i + 3] === 0)) continue;
    sample.set([data[i], data[i + 1], data[i + 2]], 3 * taken++);
  }

  let next = new Int32Array(ROOTS);
  const leaf = new Int32Array(taken);
  const counts = new Int32Array(ROOTS);
  const top = depth - 6;
  for (let k = 0; k < taken; k++) {
    leaf[k] = ((sample[3 * k] >> top) << 12) | ((sample[3 * k + 1] >> top) << 6) | (sample[3 * k + 2] >> top);
    counts[leaf[k]]++;
  }
  let tops = counts;
  let from = 0;
  for (let s = top - 2; s >= 0 && s >= depth - DEEPEST; s -= 2) {
    // Branches for the heavy leaves of the last level …
    let used = next.length;
    const heavy: number[] = [];
    for (let i = 0; i < tops.length; i++) if (tops[i] > limit * taken) heavy.push(from + i);
    if (heavy.length === 0) break;
    const grown = new Int32Array(used + 64 * heavy.length);
    grown.set(next);
    from = used;
    for (const i of heavy) {
      grown[i] = used;
      used += 64;
    }
    next = grown;
    // … and how the sample falls on them.
    tops = new Int32Array(used - from);
    for (let k = 0; k < taken; k++) {
      const branch = next[leaf[k]];
      if (branch === 0) continue;
      leaf[k] =
        branch +
        ((((sample[3 * k] >> s) & 3) << 4) |
          (((sample[3 * k + 1] >> s) & 3) << 2) |
          ((sample[3 * k + 2] >> s) & 3));
      tops[leaf[k] - from]++;
    }
  }
  return { roots: ROOTS, next };
}

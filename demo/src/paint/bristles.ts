/**
 * The marks of a flat brush's bristles: a field over the stroke, long along it and fine across it.
 *
 * Two values by place, both 0…1 with a mean near one half: how much paint the bristles there carry, and the
 * tone of that paint. Kept at several finenesses, so that a narrow stroke doesn't show noise finer than a pixel.
 */
import { hash01, noise2 } from '../scene/index.ts';

/** Columns of a field: they repeat along the stroke. */
export const LENGTH = 256;
const FINEST = 64;
const BRUSHES = 6;

export interface Bristles {
  /** Rows across the stroke. */
  readonly rows: number;
  readonly load: Float32Array;
  readonly tone: Float32Array;
  /** How far behind the brush's edge each row begins and ends, 0…1. */
  readonly ragged: Float32Array;
}

let made: Bristles[][] | null = null;

/** The field of a brush for a stroke that many pixels wide; `which` (0…1) picks one of a few brushes. */
export function bristlesFor(which: number, pixels: number): Bristles {
  made ??= Array.from({ length: BRUSHES }, (_, b) => levels(b));
  const brush = made[Math.min(BRUSHES - 1, Math.floor(which * BRUSHES))]!;
  // About two and a half pixels a bristle.
  let level = 0;
  while (level < brush.length - 1 && brush[level]!.rows > pixels * 0.55) level++;
  return brush[level]!;
}

function levels(seed: number): Bristles[] {
  const rows = FINEST;
  const load = new Float32Array(rows * LENGTH);
  const tone = new Float32Array(rows * LENGTH);
  const ragged = new Float32Array(rows);
  for (let v = 0; v < rows; v++) {
    const clump = noise2(v / 9, 0.5, seed * 7 + 1);
    const fibre = hash01(v, 5, 0, seed);
    ragged[v] = Math.min(1, 0.55 * noise2(v / 5, 0.5, seed * 7 + 2) + 0.45 * hash01(v, 9, 0, seed));
    for (let u = 0; u < LENGTH; u++) {
      const along = 0.6 * ring(u, 7, v / 2.5, seed * 7 + 3) + 0.4 * ring(u, 23, v / 1.3, seed * 7 + 4);
      load[v * LENGTH + u] = 0.34 * clump + 0.26 * fibre + 0.4 * along;
      tone[v * LENGTH + u] =
        0.4 * noise2(v / 6, 3.5, seed * 7 + 5) +
        0.25 * hash01(v, 6, 0, seed) +
        0.35 * ring(u, 5, v / 4, seed * 7 + 6);
    }
  }
  const out: Bristles[] = [{ rows, load, tone, ragged }];
  while (out.at(-1)!.rows > 4) out.push(coarser(out.at(-1)!));
  return out;
}

/** Noise that closes on itself along the stroke, `waves` periods in all. */
function ring(u: number, waves: number, v: number, seed: number): number {
  const turn = u / LENGTH;
  const t = turn * waves;
  return noise2(t, v, seed) * (1 - turn) + noise2(t - waves, v, seed) * turn;
}

function coarser(fine: Bristles): Bristles {
  const rows = fine.rows / 2;
  const half = (from: Float32Array, columns: number) => {
    const out = new Float32Array(rows * columns);
    for (let v = 0; v < rows; v++)
      for (let u = 0; u < columns; u++)
        out[v * columns + u] = (from[2 * v * columns + u]! + from[(2 * v + 1) * columns + u]!) / 2;
    return out;
  };
  return { rows, load: half(fine.load, LENGTH), tone: half(fine.tone, LENGTH), ragged: half(fine.ragged, 1) };
}

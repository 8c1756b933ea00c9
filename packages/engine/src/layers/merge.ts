import type { Part, Program } from './program.ts';
import { placeRunner } from './program.ts';

/** Neighbouring parts of one group, from `first` to `last`, as indices into the parts of a program. */
export interface Run {
  readonly first: number;
  readonly last: number;
}

/**
 * For each run the largest difference of the finished picture, in code values, when the run is made one normal layer.
 * It is not followed any further once it is beyond one code value. Yields the share done after each row.
 */
export function* mergeErrors(
  { width, height }: { width: number; height: number },
  program: Program,
  runs: readonly Run[],
  depth: 8 | 16,
): Generator<number, number[]> {
  const errors = runs.map(() => 0);
  if (runs.length === 0) return errors;
  const runner = placeRunner(program);
  const full = 2 ** depth - 1;
  const out = new Float64Array(4);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      runner.at(x, y);
      for (let k = 0; k < runs.length; k++) {
        if (errors[k] > MOST) continue;
        const [from, to] = stepsOf(program.parts, runs[k]);
        if (!runner.changes(from, to) && !runner.painted(from, to)) continue;
        if (!runner.merged(from, to, depth, out)) continue;
        errors[k] = Math.max(errors[k], full * codeDifference(out, runner.result));
      }
    }
    yield (y + 1) / height;
  }
  return errors;
}

/** Code values that a merge may change. */
export const MOST = 1 + 1e-6;

function stepsOf(parts: readonly Part[], { first, last }: Run): [number, number] {
  return [parts[first].from, parts[last].to];
}

/** Largest difference of two pixels; where one is thin its colour counts for less, as it shows less. */
function codeDifference(p: ArrayLike<number>, q: ArrayLike<number>): number {
  let most = Math.abs(p[3] - q[3]);
  for (let c = 0; c < 3; c++) {
    const colour = Math.abs(p[c] - q[c]) * Math.min(p[3], q[3]);
    if (colour > most) most = colour;
  }
  return most;
}

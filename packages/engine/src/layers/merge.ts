import { lineRunner } from './lines.ts';
import { presenceOf } from './present.ts';
import type { Program } from './program.ts';

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
  const runner = lineRunner(program);
  const full = 2 ** depth - 1;
  const out = new Float64Array(4);
  const { parts } = program;
  const ranges = runs.map(({ first, last }) => ({ from: parts[first].from, to: parts[last].to }));
  const presence = presenceOf(program, ranges);
  let open = runs.map((_, k) => k);
  for (let y = 0; y < height && open.length > 0; y++) {
    presence.enter(y);
    for (let x = 0; x < width; x++) {
      let made = false;
      for (let i = 0; i < open.length; i++) {
        const k = open[i];
        if (errors[k] > MOST || !presence.several(k, x)) continue;
        if (!made) runner.at(x, y);
        made = true;
        if (!runner.merged(runs[k].first, runs[k].last, depth, out)) continue;
        errors[k] = Math.max(errors[k], full * codeDifference(out, runner.result));
      }
    }
    open = open.filter((k) => errors[k] <= MOST);
    yield (y + 1) / height;
  }
  return errors;
}

/** Code values that a merge may change. */
export const MOST = 1 + 1e-6;

/** Largest difference of two pixels of colour times alpha; where one is thin its colour counts for less. */
function codeDifference(p: Float64Array, q: Float64Array): number {
  let most = Math.abs(p[3] - q[3]);
  const thin = Math.min(p[3], q[3]);
  if (thin <= 0) return most;
  for (let c = 0; c < 3; c++) {
    const colour = thin * Math.abs(p[c] / p[3] - q[c] / q[3]);
    if (colour > most) most = colour;
  }
  return most;
}

import { sixDigits } from '@halflight/engine';
import type { LayersTold } from './run.ts';

/** What is told of a layered picture as one line of JSON (halflight/layers@1). */
export function lineOf({ reading, does, choices, plan, sweep }: LayersTold): string {
  const line = {
    schema: 'halflight/layers@1',
    layers: reading.layers.map((one) => ({
      path: one.path,
      name: one.name,
      worth: { mean: one.worth.mean, p95: one.worth.p95 },
      areaShare: one.areaShare,
      redundant: one.redundant,
      why: one.why,
      mergeableWith: one.mergeableWith,
      visible: one.visible,
      group: one.group,
      kind: one.kind,
      does: does.get(one.path) ?? [],
    })),
    options: reading.options,
    merges: reading.merges,
    choices: choices.map((set) => set.map(({ path, distance, numbers }) => ({ path, distance, numbers }))),
    ...(sweep && {
      sweep: {
        path: sweep.path,
        cells: sweep.cells.map(({ turn, opacity, distance, numbers }) => ({
          turn,
          opacity,
          distance,
          numbers,
        })),
      },
    }),
    ...(plan && {
      plan: plan.map(({ name, ...stage }) => ({ stage: name, ...stage })),
    }),
  };
  return JSON.stringify(line, sixDigits);
}

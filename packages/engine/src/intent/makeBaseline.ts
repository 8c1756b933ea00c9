import { WORKS_NEEDED } from '../findings/thresholds/threshold.ts';
import { percentiles } from '../numbers/percentiles.ts';
import type { ExaminedReading } from '../readings/examine.ts';
import type { Baseline, BaselineRange } from './baseline.ts';

/** What a finished work gives to the baseline. */
export type BaselineWork = readonly (Pick<ExaminedReading, 'id' | 'measures'> & {
  readonly evidence: { readonly level: string };
})[];

/**
 * Where an artist's finished works usually lie: for every measure of every reading the 10th, 50th and 90th percentile
 * over the works, each counting the same (Hazen's positions). A reading that abstained says nothing about its work,
 * and a measure that fewer than `WORKS_NEEDED` works have is left out.
 *
 * @returns null when there are fewer than `WORKS_NEEDED` works
 */
export function makeBaseline(works: readonly BaselineWork[]): Baseline | null {
  if (works.length < WORKS_NEEDED) return null;
  const values = new Map<string, number[]>();
  for (const { id, evidence, measures } of works.flat()) {
    if (evidence.level === 'weak') continue;
    for (const { key, value } of measures) {
      if (value === null || !Number.isFinite(value)) continue;
      const name = `${id}.${key}`;
      values.set(name, [...(values.get(name) ?? []), value]);
    }
  }
  const measures: Record<string, BaselineRange> = {};
  for (const [name, all] of values) {
    if (all.length < WORKS_NEEDED) continue;
    const [p10, p50, p90] = percentiles(all, null, [0.1, 0.5, 0.9]);
    measures[name] = { p10, p50, p90 };
  }
  return { schema: 'halflight/baseline@1', works: works.length, measures };
}

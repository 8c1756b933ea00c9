/** Where an artist's finished works usually lie, per measure of each reading ("hueSpread.effectiveHues"). */
export interface Baseline {
  readonly schema: 'halflight/baseline@1';
  /** Number of works read. */
  readonly works: number;
  readonly measures: Readonly<Record<string, BaselineRange>>;
}

export interface BaselineRange {
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

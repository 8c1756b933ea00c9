import type { Threshold } from './threshold.ts';

const SET = 'our default';

/** Thresholds of the open decisions. */
export const OPEN_DECISIONS = {
  /** Sets of layers between which one is to choose. */
  options: { from: 1, strong: 4, origin: { kind: 'default', text: SET } },
  /** Layers that show nothing. */
  idle: { from: 1, strong: 10, origin: { kind: 'default', text: SET } },
  /** The most layers that may stand apart where the intent names no limit; three times as many weigh heavily. */
  limit: 8,
} as const satisfies Record<string, Threshold | number>;

import type { Threshold } from './threshold.ts';

/** Thresholds of the mood reading, in steps of an axis beyond the tolerance (see `intent/moodAxes.ts`). */
export const MOOD = {
  /** From here on an axis is a finding. */
  off: {
    from: 0.25,
    strong: 1.25,
    origin: { kind: 'default', text: 'a step is the usual spread of pictures on this axis, our default' },
  },
} as const satisfies Record<string, Threshold>;

/** Smaller pictures than this many pixels are too small to carry a mood that can be read. */
export const MOOD_AREA = { weak: 2500, fair: 40_000 } as const;

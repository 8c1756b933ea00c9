import type { Origin } from '../finding.ts';

const OUR_DEFAULT: Origin = {
  kind: 'default',
  text: 'our default, set by eye on thirty paintings and photographs',
};

/** Thresholds of the detail reading. Amplitudes are root mean squares in units of L*. */
export const DETAIL = {
  /** Fine strokes below this are a quiet ground, not detail. */
  visible: 1.5,
  /** Fine strokes from here on are busy. */
  busy: 4,
  /** A place that differs by less than this from its surroundings adds little to the whole view. */
  quietWhole: 5,
  /** Share of the area that may be overworked. */
  overworked: { at: 0.12, origin: OUR_DEFAULT },
  /** Fine detail of the focus against the rest of the picture, as a ratio of amplitudes. */
  focusRatio: { at: 1, origin: OUR_DEFAULT },
} as const;

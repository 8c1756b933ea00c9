import type { Threshold } from './threshold.ts';

const SET = 'our default, set by eye on 99 paintings, illustrations and photographs';

/** Thresholds of the value reading. */
export const VALUE = {
  /** Number of shapes into which three tones break (see `shapes.ts`): one of twelve pictures passes it. */
  shapes: { from: 20, strong: 40, origin: { kind: 'default', text: SET } },
  /** Range in L* below which values lie so near each other that little can be told apart. */
  range: { from: 12, strong: 5, origin: { kind: 'default', text: SET } },
  /** How far the focus stands out in value (see `focus.ts`); 1 = as much as the rest of the picture. */
  focus: { from: 1, strong: 0.4, origin: { kind: 'default', text: SET } },
} as const satisfies Record<string, Threshold>;

/** Below this range in L* it does not matter into how many shapes the values break: they are hardly seen. */
export const SHAPES_RANGE = 20;

/** How value groups are counted. Our defaults, set so that flat pictures of k tones are read as k groups. */
export const VALUE_GROUPS = {
  /** A picture whose range is below this many L* is one tone. */
  oneTone: 1.5,
  /** Each group beyond three must explain at least this much more of the variance … */
  gain: 0.03,
  /** … and leave less than this part of what fewer groups leave, both held against an even ramp. */
  nearer: 0.9,
} as const;

/** Smaller pictures than this many pixels are too small to judge their values. */
export const VALUE_AREA = { weak: 2500, fair: 40_000 } as const;

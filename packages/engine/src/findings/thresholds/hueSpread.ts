import type { Threshold } from './threshold.ts';

const MEASURED =
  'our default: passed by about one of eight among 99 paintings, illustrations and photographs';

/** Thresholds of the hue spread. */
export const HUE_SPREAD = {
  /** Effective number of hues of a picture with three families or more. */
  many: { from: 3.5, strong: 4.7, origin: { kind: 'default', text: MEASURED } },
  /** The same for one or two families: two natural ones of 15° standard deviation already read 4. */
  manyOfTwo: { from: 4.7, strong: 6, origin: { kind: 'default', text: MEASURED } },
  /** Share of the colour weight outside the planned families. */
  strays: {
    from: 0.08,
    strong: 0.25,
    origin: { kind: 'default', text: 'your hue plan; up to 8 % outside it passes, our default' },
  },
  /** Share of the area that an accent may take. */
  accent: {
    from: 0.04,
    strong: 0.1,
    origin: { kind: 'default', text: 'common practice, no source' },
  },
} as const satisfies Record<string, Threshold>;

/** A family of less colour weight than this is too small to be counted in a sentence. */
export const COUNTED_FAMILY = 0.05;
/** Families that make up this much of the colour weight are the picture's own when none are planned. */
export const OWN_FAMILIES = 0.85;

/** When colour says too little to judge hues. */
export const HUE_EVIDENCE = {
  /** Below this share of the area with a hue the reading abstains … */
  weakShare: 0.02,
  /** … and up to this one it is only fair. */
  fairShare: 0.1,
  /** Pictures of fewer pixels than this are too small to be judged … */
  weakArea: 2500,
  /** … and below this they are judged with care. */
  fairArea: 40_000,
} as const;

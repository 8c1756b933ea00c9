import type { Threshold } from './threshold.ts';

const MEASURED = 'our default: nine of ten among 48 paintings, illustrations and photographs stay below it';

/** Thresholds of the headroom, as shares of the area. */
export const HEADROOM = {
  /** Darks without room below (L* under 2). */
  darks: { from: 0.03, strong: 0.2, origin: { kind: 'default', text: MEASURED } },
  /** The same where a dark key was decided: a night may close some of its darks. */
  darksByDecision: {
    from: 0.12,
    strong: 0.5,
    origin: { kind: 'intent', text: 'you decided a dark key, so that four times the usual share passes' },
  },
  /** Lights without room above (L* over 98). */
  lights: { from: 0.02, strong: 0.1, origin: { kind: 'default', text: MEASURED } },
  /** Other colours at the edge of the gamut. */
  colours: {
    from: 0.08,
    strong: 0.35,
    origin: {
      kind: 'default',
      text: 'our default: seven of ten among 102 illustrations, graphics and photographs stay below it',
    },
  },
} as const satisfies Record<string, Threshold>;

/** A key (mean L*) decided at or below this is a dark one: the darkest tenth of 48 pictures. */
export const DARK_KEY = 25;

/** Beyond these L* a value counts as closed. */
export const CLOSED = { dark: 2, light: 98 } as const;
/** A colour this near to the largest chroma of its lightness and hue stands at the edge of the gamut. */
export const EDGE = 0.98;
/** Below this chroma the edge of the gamut is no matter of colour. */
export const EDGE_CHROMA = 0.04;
/** Further share of the area that may clip before a direction counts as used up. */
export const CLIPS = 0.01;

/** Pictures of fewer pixels than this say nothing reliable about shares. */
export const HEADROOM_AREA = { weak: 2500, fair: 40_000 } as const;

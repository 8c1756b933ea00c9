import type { Threshold } from './threshold.ts';

/** Thresholds of the light reading; shares are of the whole area. */
export const LIGHT = {
  /** Shade that only darkens. */
  neutral: {
    from: 0.004,
    strong: 0.08,
    origin: { kind: 'default', text: 'our default: places under 0.15 % of the picture are left out' },
  },
  /** Places lit against the scene. */
  opposite: {
    from: 0.003,
    strong: 0.05,
    origin: { kind: 'default', text: 'our default: places under 0.15 % of the picture are left out' },
  },
  /** How much of the judged shade follows a declared light, in per cent. */
  carried: { from: 60, strong: 20, origin: { kind: 'intent', text: 'the light you decided; our default' } },
  /** Angle between the light that is read and the one that is declared, degrees. */
  turned: { from: 45, strong: 120, origin: { kind: 'intent', text: 'the light you decided; our default' } },
} as const satisfies Record<string, Threshold>;

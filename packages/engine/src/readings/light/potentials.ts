/**
 * Numbers of the labelling. Calibrated on rendered scenes of two renderers (see docs/light.md), never on a
 * picture that a figure is reported for.
 */
export interface Potentials {
  /** Tolerances in log-chromaticity of a change along the curve, without colour, along the swapped curve. */
  readonly tauShade: number;
  readonly tauNeutral: number;
  readonly tauOpposite: number;
  /** Density of the changes between unlike surfaces, against which each relation must stand out. */
  readonly elseShade: number;
  readonly elseNeutral: number;
  readonly elseOpposite: number;
  /** A darkening counts from this share of the light's full drop in ℓ; fully from `drop + dropWidth`. */
  readonly drop: number;
  readonly dropNeutral: number;
  readonly dropWidth: number;
  /** A drop deeper than this multiple of the full drop is no longer shade of the same surface. */
  readonly deepest: number;
  /** Weight of a miss in ℓ against one in chromaticity. */
  readonly along: number;
  /** Pairs count half at this distance in pixels. */
  readonly near: number;
  /** What all pairs of a region together may say, in nats. */
  readonly say: number;
  /** Whose share of its contacts counts: 1 the listener's own, ½ both alike. */
  readonly own: number;
  /** How much a pattern silences what it seems to say; see `patternOf`. */
  readonly pattern: number;
  /** Pigment that varies within a surface: scale in ℓ. */
  readonly texture: number;
  readonly elseTexture: number;
  /** Difference of texture that halves a pair's say. */
  readonly grain: number;
  /** Agreement with like regions, in nats over all of them. */
  readonly like: number;
  readonly likeColour: number;
  /** Agreement of touching regions, in nats over the whole border. */
  readonly touch: number;
  /** Log-odds against `lit` before anything is seen. */
  readonly shade: number;
  readonly neutral: number;
  readonly opposite: number;
}

export const POTENTIALS: Potentials = {
  tauShade: 0.081,
  tauNeutral: 0.0648,
  tauOpposite: 0.0444,
  elseShade: 0.0329,
  elseNeutral: 0.06,
  elseOpposite: 0.081,
  drop: 0.25,
  dropNeutral: 0.472,
  dropWidth: 0.2,
  deepest: 1.19,
  along: 0.3,
  near: 18,
  say: 22.2,
  own: 0.593,
  pattern: 1,
  texture: 0.185,
  elseTexture: 0.06,
  grain: 0.135,
  like: 5.47,
  likeColour: 0.05,
  touch: 0.675,
  shade: -0.1,
  neutral: -0.3,
  opposite: -1.1,
};

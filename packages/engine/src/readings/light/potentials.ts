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
  /** How much deeper than the curve in ℓ a corner may be, and the weight of a miss beyond. */
  readonly corner: number;
  readonly beyond: number;
  /** Pairs count half at this distance in pixels. */
  readonly near: number;
  /** What all pairs of a region together may say, in nats. */
  readonly say: number;
  /** Whose share of its contacts counts: 1 the listener's own, ½ both alike. */
  readonly own: number;
  /** A contact that looks this much like a pattern counts half; see `patternOf`. */
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
  tauShade: 0.116,
  tauNeutral: 0.061,
  tauOpposite: 0.0444,
  elseShade: 0.0215,
  elseNeutral: 0.0281,
  elseOpposite: 0.133,
  drop: 0.101,
  dropNeutral: 0.383,
  dropWidth: 0.0797,
  deepest: 1.47,
  along: 0.183,
  corner: 0.4,
  beyond: 0.3,
  near: 18,
  say: 15.7,
  own: 0.593,
  pattern: 0.15,
  texture: 0.289,
  elseTexture: 0.0594,
  grain: 0.279,
  like: 5.25,
  likeColour: 0.0292,
  touch: 0.756,
  shade: -0.1,
  neutral: -0.129,
  opposite: -0.504,
};

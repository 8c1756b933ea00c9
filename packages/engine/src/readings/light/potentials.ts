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
  tauShade: 0.122,
  tauNeutral: 0.061,
  tauOpposite: 0.0648,
  elseShade: 0.0306,
  elseNeutral: 0.0364,
  elseOpposite: 0.126,
  drop: 0.0875,
  dropNeutral: 0.383,
  dropWidth: 0.038,
  deepest: 1.76,
  along: 0.202,
  corner: 0.4,
  beyond: 0.171,
  near: 30.9,
  say: 13.8,
  own: 0.593,
  pattern: 0.262,
  texture: 0.326,
  elseTexture: 0.0522,
  grain: 0.319,
  like: 6.82,
  likeColour: 0.0292,
  touch: 2.85,
  shade: -0.279,
  neutral: -0.129,
  opposite: -0.463,
};

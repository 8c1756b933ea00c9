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
  tauShade: 0.133,
  tauNeutral: 0.0527,
  tauOpposite: 0.0351,
  elseShade: 0.129,
  elseNeutral: 0.0354,
  elseOpposite: 0.0644,
  drop: 0.119,
  dropNeutral: 0.431,
  dropWidth: 0.283,
  deepest: 1.74,
  along: 0.3,
  near: 18,
  say: 8.43,
  own: 0.712,
  pattern: 0.2,
  texture: 0.0386,
  elseTexture: 0.236,
  grain: 2e+03,
  like: 7.72,
  likeColour: 0.05,
  touch: 3.14,
  shade: -0.000175,
  neutral: -0.302,
  opposite: -0.358,
};

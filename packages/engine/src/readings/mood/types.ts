import type { MoodDistance } from '../../intent/moodDistance.ts';

/** What the mood reading tells. Numbers are null when there is no paint at all. */
export interface MoodValue {
  /** Warm (positive) against cool, mean over the picture, and the standard deviation over its colours. */
  readonly warmCool: number | null;
  readonly warmCoolSpread: number | null;
  /** Heavy (positive) against light. */
  readonly heavyLight: number | null;
  /** Active (positive) against passive. */
  readonly activePassive: number | null;
  /** In standard deviations of the sRGB cube; only to compare two versions. */
  readonly pleasure: number | null;
  readonly arousal: number | null;
  readonly dominance: number | null;
  /** L*, as of the value reading. */
  readonly key: number | null;
  readonly contrast: number | null;
  /** Effective number of hues, as of the hue spread; null without colour. */
  readonly hueSpread: number | null;
  /** Width of the edges in thousandths of the long side; null without edges. */
  readonly softness: number | null;
  /** Distance from the intended mood; null when the intent names none. */
  readonly distance: MoodDistance | null;
}

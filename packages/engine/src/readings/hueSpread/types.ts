import type { HueFamily } from './families.ts';
import type { TemplateFit } from './templates.ts';

/** What the hue spread reading tells; shares are 0…1, hues OKLCh degrees. */
export interface HueSpreadValue {
  /** Effective number of hues, 1 (one hue) to 10.2 (the full circle); a measure of spread. Null without colour. */
  readonly effectiveHues: number | null;
  /** Shortest arc of hues that holds 90 % of the colour weight, degrees. */
  readonly spanDegrees: number | null;
  /** The weightiest first. */
  readonly families: readonly HueFamily[];
  /** Share of the colour weight outside the planned families, or outside the picture's own largest ones. */
  readonly strayShare: number | null;
  /** The same as a share of the picture's area. */
  readonly strayAreaShare: number | null;
  /** Number of small families of high chroma. */
  readonly accents: number;
  /** Share of the picture's area in the accent's arc; null when the intent names none. */
  readonly accentAreaShare: number | null;
  /** True when the intent names families. */
  readonly planned: boolean;
  /** The narrowest hue template that holds the picture; null when none does. */
  readonly template: TemplateFit | null;
  /** Hasler & Süsstrunk 2003. */
  readonly colourfulness: number;
  /** Share of the area that has a hue at all. */
  readonly chromaticShare: number;
  /** Colour weight by hue in 36 steps of 10°, from 0° on; sums to 1, or to 0 without colour. */
  readonly distribution: readonly number[];
}

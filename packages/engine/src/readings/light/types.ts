import type { LightIntent } from '../../intent/intent.ts';
import type { Field } from '../../views/view.ts';
import type { Evidence } from '../reading.ts';
import type { Ratio } from './curve.ts';
import type { Watch } from './watch.ts';

/** What a region is taken for; the order is that of the probabilities. */
export const LABELS = ['lit', 'shade', 'neutral', 'opposite'] as const;
export type Label = (typeof LABELS)[number];

export interface LightOptions {
  /** What the artist decided; absent or `asRead`: the light is estimated from the picture. */
  readonly light?: LightIntent | null;
  /** Areas the artist left out ("wrong"), 1 = left out; any size, of the same picture. */
  readonly leftOut?: Field | null;
  /** Told what is weighed on the way. */
  readonly watch?: Watch;
}

/**
 * What can be said about the picture as a whole.
 *
 * `carries`: light and shade differ in colour the same way on several surfaces; `partly`: on some, while others
 * only darken; `none`: many surfaces go dark without changing colour; `unknown`: the picture does not tell.
 */
export type Statement = 'carries' | 'partly' | 'none' | 'unknown';

/** A vector of log-chromaticity; see `logColour`. */
export interface Shift {
  readonly x: number;
  readonly y: number;
}

export interface Haze {
  /** Share of the air's light that lies even over the darkest of what is judged: 0 none … 1 nothing else is seen. */
  readonly amount: number;
  /** Colour of the air in linear light; null without haze. */
  readonly colour: readonly [number, number, number] | null;
}

export interface LightResult {
  /** Size of the maps: the working size, at most 900 px. */
  readonly width: number;
  readonly height: number;
  readonly statement: Statement;
  readonly evidence: Evidence;
  /** True when the light was declared, not estimated. */
  readonly declared: boolean;
  /** Lit minus shade, ΔC; null when unknown or without colour. */
  readonly shift: Shift | null;
  /** OKLCh hue of the lit side of a grey whose shade is grey, degrees; null with `shift`. */
  readonly hue: number | null;
  /** Length of `shift`. */
  readonly strength: number | null;
  /** Lit side warmer (+) or cooler (−) than the shade, where the shift lies near the daylight locus. */
  readonly mired: number | null;
  /** Key over fill per channel, K/A; null without a light. */
  readonly q: Ratio | null;
  /** Votes for the light against votes for plain darkening; above 2 clearly, 0.25 to 2 in parts. */
  readonly carries: number;
  /** Angle between the declared light and the one that is read, degrees; null when one of them is missing. */
  readonly turnedBy: number | null;
  /** How strongly the picture carries the light, 0–100 %: share of the judged shade that follows it. */
  readonly carriedPercent: number | null;
  /** Effective number of different surfaces behind the shift. */
  readonly supportingSurfaces: number;
  /** Mean kernel of the curve fit, 0…1. */
  readonly fit: number;
  readonly haze: Haze;
  /** Probability of shade by darkening only, and of light against the scene; 0 where not flagged. */
  readonly neutral: Field;
  readonly opposite: Field;
  /** Shares of the whole area. */
  readonly neutralShare: number;
  readonly oppositeShare: number;
  /** Share of the whole area that is shaded in any way. */
  readonly shadedShare: number;
  /** Places that ignore or contradict the light, the largest first. */
  readonly places: readonly LightPlace[];
  /** Areas the reading left out by itself, 1 = left out: sky, glowing things. */
  readonly proposedOut: Field;
  /** What `explainPlace` looks at. */
  readonly trace: Trace;
}

export interface LightPlace {
  /** Superpixels of `Trace` that make it up. */
  readonly regions: readonly number[];
  readonly kind: 'neutral' | 'opposite';
  /** Box and share of the picture in shares of its width, height and area. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly share: number;
  /** Closed outline, x and y in turn, 0…1. */
  readonly outline: readonly number[];
  readonly evidence: Evidence;
  /** Mean probability. */
  readonly probability: number;
  /** Linear light: the same surface where it is lit, as it is now, and as this light would have it. */
  readonly lit: readonly [number, number, number];
  readonly now: readonly [number, number, number];
  readonly should: readonly [number, number, number];
  /** Light of the air before it, which is part of all three; absent where none was taken off. */
  readonly air?: readonly [number, number, number];
  /** Pairs used: number of lit partners that spoke for it. */
  readonly partners: number;
}

/** The superpixels and pairs behind a result, as plain arrays (they travel between workers). */
export interface Trace {
  /** Superpixel of every pixel of the working size, −1 where transparent. */
  readonly regionOf: Int32Array;
  readonly count: number;
  /** Mean linear light, `count × 3`. */
  readonly rgb: Float64Array;
  readonly px: Float64Array;
  readonly py: Float64Array;
  /** Why a region was not judged: 0 judged, 1 too dark or too bright, 2 sky, 3 glowing, 4 left out by the artist. */
  readonly excluded: Uint8Array;
  /** Pieces of one colour that regions were joined to, −1 where not judged; empty when the reading abstained. */
  readonly pieceOf: Int32Array;
  /** For each region, one that shows its colour in the light, however far off; −1 where none does. */
  readonly litFrom: Int32Array;
  /** Probabilities, `count × 4` in the order of `LABELS`; empty when the reading abstained. */
  readonly probability: Float64Array;
  /** 1 where a region is flagged neutral, 2 opposite. */
  readonly flagged: Uint8Array;
  /** Pairs: bright, dark, and how much the pair speaks for each relation (0…1, `pairs × 3`: shade, neutral, opposite). */
  readonly bright: Int32Array;
  readonly dark: Int32Array;
  readonly says: Float32Array;
  /** Weight of each pair. */
  readonly weight: Float32Array;
}

export interface Explanation {
  readonly label: Label | null;
  /** In the order of `LABELS`; null where the region was not judged. */
  readonly probabilities: readonly number[] | null;
  readonly sentence: string;
  readonly colour: readonly [number, number, number];
  /** The pairs with most say, the strongest first. */
  readonly pairs: readonly ExplainedPair[];
  /** The flagged place that this point belongs to, with its three colours; null elsewhere. */
  readonly place: LightPlace | null;
  /** Its surface from lit to shade the way this light goes, linear light; null without a place. */
  readonly way: readonly (readonly [number, number, number])[] | null;
}

export interface ExplainedPair {
  /** Middle of the other region, 0…1. */
  readonly x: number;
  readonly y: number;
  readonly rgb: readonly [number, number, number];
  /** The other region is the brighter one of the two. */
  readonly brighter: boolean;
  readonly says: 'shade' | 'neutral' | 'opposite' | 'nothing';
  /** 0…1. */
  readonly weight: number;
}

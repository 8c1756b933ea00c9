/** What the artist decided for a work. Every part may be left open. */
export interface Intent {
  readonly schema: 'halflight/intent@1';
  readonly mood?: MoodIntent;
  readonly light?: LightIntent;
  readonly focus?: FocusIntent;
  readonly hue?: HueIntent;
  /** What the viewer should feel, one sentence. */
  readonly feel?: string;
  readonly delivery?: DeliveryIntent;
  /** Largest number of open layers; 8 when left open. */
  readonly layerLimit?: number;
}

export type MoodAxis =
  | 'warmCool'
  | 'heavyLight'
  | 'activePassive'
  | 'key'
  | 'contrast'
  | 'hueSpread'
  | 'softness';

/** Where a picture should lie on an axis, in the axis' own unit. */
export interface AxisTarget {
  readonly at: number;
  readonly tolerance: number;
}

export interface MoodIntent {
  /** Words of our table that were chosen, e.g. "still", "bleak"; they are already blended into `axes`. */
  readonly words?: readonly string[];
  /** Where the artist moved a word to; it then means this instead of our default. */
  readonly ownWords?: Readonly<Record<string, MoodTargets>>;
  /** Pictures whose mood is meant; they are already blended into `axes`. */
  readonly examples?: readonly MoodExample[];
  readonly axes: MoodTargets;
  /** How much an axis counts against the others; 1 when left open. */
  readonly weights?: Readonly<Partial<Record<MoodAxis, number>>>;
}

export type MoodTargets = Readonly<Partial<Record<MoodAxis, AxisTarget>>>;

/** What is kept of a picture whose mood is meant: no pixels, only its numbers. */
export interface MoodExample {
  readonly name: string;
  /** Mean OKLab by area. */
  readonly mean: readonly [number, number, number];
  /** Covariance of OKLab by area, row by row from the diagonal on: LL, La, Lb, aa, ab, bb. */
  readonly covariance: readonly [number, number, number, number, number, number];
  /** Its place on the axes. */
  readonly measures: Readonly<Partial<Record<MoodAxis, number>>>;
}

/** The light of the scene: a named situation, a surface seen lit and shaded (linear sRGB), or as the picture shows. */
export type LightIntent =
  | { readonly kind: 'situation'; readonly name: string }
  | {
      readonly kind: 'surface';
      readonly lit: readonly [number, number, number];
      readonly shade: readonly [number, number, number];
    }
  | { readonly kind: 'asRead' };

/** Areas that matter, as closed outlines in shares of width and height, x and y in turn. */
export interface FocusIntent {
  readonly outlines: readonly (readonly number[])[];
}

/** An arc of OKLCh hues, in degrees; `width` is the whole arc. */
export interface HueArc {
  readonly hue: number;
  readonly width: number;
}

export interface HueIntent {
  /** Families to keep; empty means only the limit counts. */
  readonly families: readonly HueArc[];
  /** A small area that may stand out. */
  readonly accent?: HueArc;
  /** Largest spread (effective number of hues). */
  readonly limit?: number;
}

export interface DeliveryIntent {
  readonly space: 'srgb' | 'display-p3' | 'a98-rgb';
  /** Pixels of the long side; left open = as the picture is. */
  readonly longSide?: number;
}

/** Nothing decided yet. */
export const OPEN_INTENT: Intent = { schema: 'halflight/intent@1' };

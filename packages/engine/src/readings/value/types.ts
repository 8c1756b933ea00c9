/**
 * What the value reading tells; lightness is CIELAB L* (0…100) of the picture seen from a step back. Numbers are null
 * when there is no paint at all.
 */
export interface ValueValue {
  /** Area mean. */
  readonly key: number | null;
  /** 5th to 95th percentile, and both ends. */
  readonly range: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Three to five groups, the darkest first; fewer when the picture has fewer tones. */
  readonly groups: readonly ValueGroup[];
  /** Mean L* of the three tones that a thumbnail is held against, the darkest first. */
  readonly tones: readonly number[];
  /** Share of the variance that 3, 4 and 5 groups explain, each beside what they explain of an even ramp. */
  readonly explained: readonly {
    readonly groups: number;
    readonly share: number;
    readonly evenRamp: number;
  }[];
  /** How alike the picture and its three tones are at thumbnail size: structural similarity; null when too small. */
  readonly thumbnail: number | null;
  /** Number of shapes into which the three tones break; specks count in part. */
  readonly shapes: number | null;
  /** Null when the intent draws no focus. */
  readonly focus: FocusContrast | null;
  /** Share of the area by L* in 20 steps of 5. */
  readonly distribution: readonly number[];
}

export interface ValueGroup {
  /** Mean L*. */
  readonly L: number;
  /** Share of the area, 0…1. */
  readonly share: number;
}

/** The focus against its surroundings. */
export interface FocusContrast {
  /** Mean L* of the focus and of a ring of about its own area around it. */
  readonly inside: number;
  readonly around: number;
  /** Their difference without sign. */
  readonly difference: number;
  /** Strongest edges of value in the focus and on its border against those of the rest, as a ratio. */
  readonly edges: number;
}

/** The values of a picture that has any paint. */
export type SeenValues = { readonly [K in keyof ValueValue]: K extends Plain ? number : ValueValue[K] };
type Plain = 'key' | 'range' | 'low' | 'high' | 'shapes';

export function hasPaint(value: ValueValue): value is SeenValues {
  return value.key !== null;
}

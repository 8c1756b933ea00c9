/** A quiet look and what was said after it. */
export interface Look {
  readonly at: string;
  readonly version: number;
  /** Whose eye: one's own, or another person's. */
  readonly by: 'own' | 'guest';
  readonly seconds: number;
  readonly mirrored: boolean;
  /** Where the eye went first, in shares of width and height. */
  readonly first?: readonly [number, number];
  /** How much of the mood was there, 0 to 1. */
  readonly mood?: number;
  /** What pulled one out: a place and a word. */
  readonly pulledOut?: { readonly place?: readonly [number, number]; readonly word?: string };
  readonly verdict?: 'done' | 'oneMore' | 'rest';
}

import type { Tried } from './confidence.ts';
import type { Signs } from './judge/judge.ts';
import type { Pieces } from './pieces.ts';

/** Told what is weighed while a light is read; what weighs it is made from that, see `bench/src/light/train`. */
export interface Watch {
  /** All directions that may be that of the light: behind the air first, where there is some, then as seen. */
  directions?(tried: readonly Tried[]): void;
  /** Every piece of the picture before it is judged. */
  pieces?(pieces: Pieces, signs: Signs): void;
}

import type { ReadingId } from '../readings/reading.ts';

/** Where a threshold comes from. */
export interface Origin {
  readonly kind: 'paper' | 'standard' | 'baseline' | 'intent' | 'default';
  readonly text: string;
}

/** One sentence from a reading against the intent, with what to do. */
export interface Finding {
  /** Stable name of the kind of finding, e.g. "hueSpread.many"; answers refer to it. */
  readonly key: string;
  readonly reading: ReadingId;
  /** 0 fine … 1 blocks the mood. */
  readonly severity: number;
  /** In painter's language, a whole sentence. */
  readonly text: string;
  /** The number behind the sentence, with its unit and threshold. */
  readonly number: string;
  /** What to do, a whole sentence. */
  readonly todo: string;
  readonly origin: Origin;
  /** Name of the reading's map that shows where, when there is a where. */
  readonly map?: string;
  /** Separate places, the largest first. */
  readonly places?: readonly Place[];
}

/** A place on the picture, in shares of its width and height (0…1). */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Share of the picture's area. */
  readonly share: number;
  /** Closed outline, x and y in turn, in the same units. */
  readonly outline?: readonly number[];
  /** One line about this place. */
  readonly note?: string;
  /** Colours to show beside it, in order, each with what it stands for. */
  readonly swatches?: readonly Swatch[];
}

/** A flat colour in linear light, sRGB primaries, unclipped. */
export interface Swatch {
  readonly label: string;
  readonly rgb: readonly [number, number, number];
}

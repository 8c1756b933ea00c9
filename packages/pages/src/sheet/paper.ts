import { GREY } from '../page/greys.ts';

/** What a sheet is laid out on, in units of 1/96 inch. */
export interface Paper {
  readonly width: number;
  /** Null for one sheet as long as it needs. */
  readonly height: number | null;
  readonly margin: number;
  readonly ground: string;
  /** Tallest that pictures may be together. */
  readonly tallest: number;
  /** Cards in a row. */
  readonly cards: number;
  /** Whether rows of drawings may be side by side. */
  readonly wide: boolean;
}

/** ISO 216 A4, upright. */
export const A4: Paper = {
  width: 793.7,
  height: 1122.52,
  margin: 56,
  ground: GREY.paper,
  tallest: 820,
  cards: 4,
  wide: true,
};

/** One long sheet for a chat, read on a telephone: fewer things side by side. */
export const LONG: Paper = {
  width: 720,
  height: null,
  margin: 40,
  ground: GREY.ground,
  tallest: 1000,
  cards: 3,
  wide: false,
};

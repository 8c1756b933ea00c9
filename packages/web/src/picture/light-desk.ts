import type { ColourSpace, Drawing, Explanation, Intent } from '@halflight/engine';
import type { Answer } from '../document/work.ts';

/** What the light reading saw at a place, with the way its surface goes from light into shade. */
export interface LightExplained extends Pick<Explanation, 'sentence' | 'pairs' | 'place'> {
  /** Null where no place is flagged. */
  readonly drawing: Drawing | null;
}

/** Calls about the light of the open picture. */
export interface LightDesk {
  /** The picture's own colour space: what pickers and swatches speak. */
  space(): Promise<ColourSpace>;
  /** Why a place is flagged or not. */
  explain(x: number, y: number, intent: Intent, answers: readonly Answer[]): Promise<LightExplained>;
  /** The small curve of a flagged place, by the corner of its box; null when it is not flagged any more. */
  placeDrawing(x: number, y: number, intent: Intent, answers: readonly Answer[]): Promise<Drawing | null>;
}

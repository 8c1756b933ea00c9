import type { Intent, Recipe, StepData } from '@halflight/engine';
import type { Answer } from '../document/work.ts';
import type { PictureWindow, Seen, SeenMap } from './desk.ts';

/** Where the edited picture's colours must fit: the picture's own space, or the one it is handed over in. */
export type TargetSpace = 'own' | 'srgb' | 'display-p3' | 'a98-rgb';

/** One number of a reading, before the edit is not told here: the page knows it. */
export interface LiveMeasure {
  readonly reading: string;
  readonly key: string;
  readonly value: number | null;
}

/**
 * Calls about the edit of the open picture. Calls that show something answer null when a newer call of the same
 * kind has come meanwhile: the newest wish wins.
 */
export interface EditDesk {
  /** The whole picture as the recipe makes it, quickly: `side` pixels on its long side at most. */
  preview(recipe: Recipe, space: TargetSpace, side: number): Promise<ImageBitmap | null>;
  /** A part of the full-size picture as it will be written, made by the kernel itself. */
  editedWindow(recipe: Recipe, space: TargetSpace, part: PictureWindow): Promise<ImageBitmap | null>;
  /** The numbers that follow while a value is dragged, by the census. */
  measure(recipe: Recipe, space: TargetSpace, intent: Intent): Promise<readonly LiveMeasure[] | null>;
  /** All readings of the edited picture. */
  examineEdit(
    recipe: Recipe,
    space: TargetSpace,
    intent: Intent,
    answers: readonly Answer[],
  ): Promise<Seen | null>;
  /** Where a step works, 255 where fully; null when it works everywhere. */
  areaMap(recipe: Recipe, step: number): Promise<SeenMap | null>;
  /** Where the colours of the picture and of an example lie. */
  example(file: Blob, name: string): Promise<StepData>;
}

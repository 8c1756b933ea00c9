import type { Intent, Place, Proposal, Recipe, Step, StepData } from '@halflight/engine';
import type { EncodeOptions } from '@halflight/files';
import type { Answer } from '../document/work.ts';
import type { PictureWindow, Progress, Seen, SeenMap } from './desk.ts';
import type { LightDesk } from './light-desk.ts';

/** Where the edited picture's colours must fit: the picture's own space, or the one it is handed over in. */
export type TargetSpace = 'own' | 'srgb' | 'display-p3' | 'a98-rgb';

/** One number of a reading, before the edit is not told here: the page knows it. */
export interface LiveMeasure {
  readonly reading: string;
  readonly key: string;
  readonly value: number | null;
}

/** A small copy of the picture for the graphics card: coded numbers and cover, `width × height × 4`. */
export interface CardSource {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array<ArrayBuffer>;
}

/**
 * Steps that follow each other in one area, as a table over all colours that come in, baked by the kernel.
 *
 * The table has `size³` places for each of `levels` covers from none to full, red fastest, covers slowest; three
 * numbers and a spare one a place. Numbers are coded like those that come in, and for the screen in the last pass.
 */
export interface CardPass {
  readonly size: number;
  readonly levels: number;
  readonly data: Float32Array<ArrayBuffer>;
  /** The coded range that the table covers, per channel. */
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** Which step's area it works in; null everywhere. */
  readonly areaOf: number | null;
}

/** One small picture of an option sheet. */
export interface SheetOption {
  readonly column: number;
  readonly row: number;
  /** The step as it is set there. */
  readonly step: Step;
  /** Steps from the intended mood; null when none is intended. */
  readonly distance: number | null;
  readonly bitmap: ImageBitmap;
}

/** One small picture of a light sheet, in the order of the table. */
export interface SheetLight {
  /** Name of the situation. */
  readonly name: string;
  /** The edit with the steps that turn the light before it. */
  readonly recipe: Recipe;
  /** Steps from the intended mood; null when none is intended. */
  readonly distance: number | null;
  readonly bitmap: ImageBitmap;
}

/** How the edited picture is written. */
export interface Writing {
  readonly format: EncodeOptions['format'];
  readonly depth: 8 | 16;
  readonly space: TargetSpace;
  /** Whether what travels beside the pixels (camera data, copyright, place) is kept. */
  readonly metadata: boolean;
}

/** A file that was written. */
export interface Written {
  /** True when its bytes were decoded again and are as they were meant. */
  readonly readBack?: boolean;
  readonly blob: Blob;
  readonly name: string;
}

/**
 * Calls about the edit of the open picture. Calls that show something answer null when a newer call of the same
 * kind has come meanwhile: the newest wish wins.
 */
export interface EditDesk extends LightDesk {
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
  areaMap(step: Step, side: number): Promise<SeenMap | null>;
  /** The picture for the graphics card, `side` numbers on its long side at most. */
  cardSource(side: number): Promise<CardSource>;
  /** The recipe as passes over that copy. */
  bake(recipe: Recipe, space: TargetSpace, side: number, fine: boolean): Promise<readonly CardPass[] | null>;
  /** Where the colours of the picture and of an example lie. */
  example(file: Blob, name: string): Promise<StepData>;
  /** The smallest edit for the open notes that leaves these outlines alone; null when it was stopped. */
  propose(
    intent: Intent,
    answers: readonly Answer[],
    kept: readonly (readonly number[])[],
    progress: (p: Progress) => void,
  ): Promise<Proposal | null>;
  stopProposing(): Promise<void>;
  /** The options of a step, one by one as they are made; false when it was stopped. */
  options(
    recipe: Recipe,
    step: number,
    intent: Intent,
    answers: readonly Answer[],
    each: (option: SheetOption) => void,
  ): Promise<boolean>;
  /** The picture in each light of the table; none where lit can't be told from shaded. False when it was stopped. */
  lights(
    recipe: Recipe,
    intent: Intent,
    answers: readonly Answer[],
    each: (light: SheetLight) => void,
  ): Promise<boolean>;
  /** Stops the options or the lights that are being made. */
  stopOptions(): Promise<void>;
  /** Writes the edited picture at full size and reads it back; null when it was stopped. */
  write(recipe: Recipe, writing: Writing, progress: (p: Progress) => void): Promise<Written | null>;
  stopWriting(): Promise<void>;
  /** The guide layer of these places, as large as the picture. */
  guide(places: readonly Place[]): Promise<Written>;
}

import type { HandoverSettings, Intent, PaletteEntry, Place, Recipe, Step } from '@halflight/engine';
import type { ReportData, ReportKind } from '@halflight/pages';
import type { Answer } from '../document/work.ts';
import type { Progress, SeenMap } from './desk.ts';
import type { Written } from './edit-desk.ts';

/** A profile that the artist chose. */
export type ChosenProfile = Uint8Array<ArrayBuffer> | null;

/** A file that was made, and what is to be known of it. */
export interface HandedFile extends Written {
  readonly notes: readonly string[];
}

/** What the space of the file loses. */
export interface SeenLoss {
  /** Share of the picture's area. */
  readonly share: number;
  /** Where. */
  readonly map: SeenMap;
}

/** Steps that bring in what is lost. */
export interface SeenCalming {
  readonly steps: readonly Step[];
  /** Share that is lost with them. */
  readonly after: number;
  /** Whether hardly anything is lost then. */
  readonly enough: boolean;
}

/** The edit as tables. */
export interface SeenTable {
  readonly holds: readonly string[];
  /** Steps that no table can hold. */
  readonly leftOut: readonly string[];
  readonly clf: Blob;
  readonly icc: Blob;
}

/** What a report tells beside the picture. */
export interface ReportWish {
  readonly title: string;
  readonly author: string;
  readonly intent: Intent;
  readonly answers: readonly Answer[];
  readonly looks: ReportData['looks'];
  readonly decided: ReportData['decided'] | null;
  readonly process: {
    readonly points: NonNullable<ReportData['process']>['points'];
    readonly sentence: string | null;
    readonly versions: readonly (Omit<NonNullable<ReportData['process']>['versions'][number], 'small'> & {
      readonly small: Blob;
    })[];
  } | null;
}

/** What is recorded of how a picture came to be. */
export interface RecordWish {
  /** File name. */
  readonly name: string;
  readonly title: string;
  readonly format: 'webp' | 'png' | 'svg';
  /** Long side of an animation in pixels, and how long each picture stands. */
  readonly side: number;
  readonly seconds: number;
  /** The versions (animations only); null for the edit, step by step. */
  readonly versions: readonly { readonly name: string; readonly file: Blob }[] | null;
}

export type ReportFormat = 'html' | 'pdf' | 'png' | 'json';

/** Calls about what leaves the house. */
export type PaletteFormat = 'svg' | 'json' | 'css';

export interface HandoverDesk {
  /**
   * Makes the file and reads it back; null when it was stopped.
   *
   * @param places what the guide layer of a layered file shows
   */
  handOver(
    recipe: Recipe,
    settings: HandoverSettings,
    profile: ChosenProfile,
    places: readonly Place[],
    progress: (p: Progress) => void,
  ): Promise<HandedFile | null>;
  stopHandover(): Promise<void>;
  loss(recipe: Recipe, settings: HandoverSettings, profile: ChosenProfile): Promise<SeenLoss>;
  calm(recipe: Recipe, settings: HandoverSettings, profile: ChosenProfile): Promise<SeenCalming>;
  palette(recipe: Recipe): Promise<readonly PaletteEntry[]>;
  /** The palette as a sheet, as design tokens or as custom properties, read again. */
  paletteFile(recipe: Recipe, title: string, kind: PaletteFormat): Promise<Blob>;
  /** Null when there is no edit. */
  table(recipe: Recipe, settings: HandoverSettings, title: string): Promise<SeenTable | null>;
  /** What to know of the table's code values where they are not those of the file; null otherwise. */
  tableNote(settings: HandoverSettings): Promise<string | null>;
  record(recipe: Recipe, wish: RecordWish, progress: (p: Progress) => void): Promise<Written>;
  report(recipe: Recipe, kind: ReportKind, format: ReportFormat, wish: ReportWish): Promise<Blob>;
}

import type { FlattenStage, Intent, LayersReading, PictureFacts, Thinning } from '@halflight/engine';
import type { Choices } from '../../document/layers.ts';
import type { Progress, ScreenSpace, SeenMap } from '../../picture/desk.ts';
import type { Written } from '../../picture/edit-desk.ts';

/** A layer given as a picture. */
export interface GivenPicture {
  /** Tells it from the others. */
  readonly name: string;
  readonly file: Blob;
  /** A name of OpenRaster's `composite-op`, without its prefix. */
  readonly mode: string;
  /** 0…1. */
  readonly opacity: number;
  readonly visible: boolean;
}

/** Where layers come from. */
export type LayerSource =
  | { readonly kind: 'file'; readonly name: string; readonly file: Blob }
  /** Lowest first, and the picture of all of them together, if there is one. */
  | {
      readonly kind: 'pictures';
      readonly pictures: readonly GivenPicture[];
      readonly flat: { readonly name: string; readonly file: Blob } | null;
    }
  /** One flat picture with and without a layer. */
  | {
      readonly kind: 'pair';
      readonly shown: { readonly name: string; readonly file: Blob };
      readonly without: { readonly name: string; readonly file: Blob };
    };

/** A layer or group as it stands in the list. */
export interface ListedLayer {
  readonly path: string;
  readonly name: string;
  readonly group: boolean;
  readonly visible: boolean;
  /** How it meets what lies below, in a word; empty for normal. */
  readonly mode: string;
  readonly opacity: number;
  /** Lowest first. */
  readonly children: readonly ListedLayer[];
}

/** A layered picture before a pixel of it was read. */
export interface ListedPicture {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  /** Lowest first. */
  readonly layers: readonly ListedLayer[];
}

/** A layered picture whose layers were read. */
export interface ReadPicture {
  readonly facts: PictureFacts;
  /** All visible layers put together, at the size of the close view. */
  readonly bitmap: ImageBitmap;
  /** What was read differently from how it was meant, and what differs from the picture that came along. */
  readonly notes: readonly string[];
}

/** A layer with its worth; the map in bytes. */
export interface SeenLayer {
  readonly path: string;
  readonly mean: number;
  readonly p95: number;
  readonly areaShare: number;
  readonly redundant: boolean;
  readonly why: LayersReading['layers'][number]['why'];
  readonly kind: LayersReading['layers'][number]['kind'];
  readonly mergeableWith: string | null;
  /** What it does to mood, hues and headroom, in a sentence; null when that can't be told. */
  readonly does: string | null;
  /** Where it is missed when it is hidden; null where it never shows. */
  readonly map: SeenMap | null;
}

/** What the layers are worth, for the page. */
export interface SeenLayers {
  readonly layers: readonly SeenLayer[];
  readonly options: readonly (readonly string[])[];
  readonly merges: readonly (readonly string[])[];
  /** The same without maps, as the notes count it. */
  readonly reading: LayersReading;
}

/** What is looked at: the layers after what was decided, some of them shown or hidden only to look. */
export interface Looked {
  readonly choices: Choices;
  /** Paths whose visibility is turned about. */
  readonly turned: readonly string[];
}

/** How one picture differs from another. */
export interface Difference {
  /** Largest difference in code values of 255. */
  readonly most: number;
  /** Share of the places that differ by more than one code value. */
  readonly share: number;
  /** Where. */
  readonly map: SeenMap;
}

/** Layers made one, for a look. */
export interface MergeLook {
  readonly bitmap: ImageBitmap;
  readonly difference: Difference;
}

/** One small picture of a sheet. */
export interface OptionLook {
  /** Its place on the sheet. */
  readonly index: number;
  readonly bitmap: ImageBitmap;
  /** Steps from the intended mood; null when none is intended. */
  readonly distance: number | null;
}

/** What a sheet of one layer lays out. */
export interface SweepAxes {
  /** Degrees. */
  readonly turns: readonly number[];
  /** 0…1. */
  readonly opacities: readonly number[];
}

/** Calls of the layers' worker, which holds one layered picture. Rejections carry a sentence for people. */
export interface LayersDesk {
  begin(appBase: string, screen: ScreenSpace): Promise<void>;
  /** Opens a source; null for a pair, which has no list. */
  open(source: LayerSource): Promise<ListedPicture | null>;
  /** Reads the layers one after the other; `each` is told the path of every one. */
  read(each: (path: string) => void): Promise<ReadPicture>;
  /** The pictures in another order, with other modes, opacities or visibility: nothing is read again. */
  arrange(source: Extract<LayerSource, { kind: 'pictures' }>): Promise<ListedPicture>;
  /** Weighs the layers after what was decided; what is gone keeps the worth that it had in the reading `before`. */
  weigh(choices: Choices, before: LayersReading | null, progress: (p: Progress) => void): Promise<SeenLayers>;
  look(looked: Looked): Promise<ImageBitmap>;
  /** How the layers together differ from the flat picture; null without one. */
  flatDifference(): Promise<Difference | null>;
  /** The picture with each layer of a set. */
  options(
    set: readonly string[],
    choices: Choices,
    intent: Intent | null,
    each: (look: OptionLook) => void,
  ): Promise<void>;
  /** The hues and strengths that are tried for one layer. */
  sweepAxes(path: string, choices: Choices): Promise<SweepAxes>;
  /** The picture with one layer at each of them, row by row. */
  sweep(
    path: string,
    choices: Choices,
    intent: Intent | null,
    each: (look: OptionLook) => void,
  ): Promise<void>;
  /** The sheet is closed: no more small pictures are wanted. */
  closeSheet(): Promise<void>;
  /**
   * From keeping all that was decided to one layer, each stage with what it loses; null when a later plan came.
   *
   * @param reading what the layers are worth
   */
  plan(choices: Choices, reading: LayersReading): Promise<readonly FlattenStage[] | null>;
  lookMerged(paths: readonly string[], choices: Choices): Promise<MergeLook>;
  /** What was decided as a new layered file, thinned and read back. Null when it was stopped. */
  write(
    choices: Choices,
    thinning: Thinning,
    name: string,
    progress: (p: Progress) => void,
  ): Promise<Written | null>;
  /** Stops what runs, as soon as it lets others through. */
  stop(): Promise<void>;
}

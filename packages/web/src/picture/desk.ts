import type {
  Baseline,
  Drawing,
  Evidence,
  ExaminedMeasure,
  Finding,
  Intent,
  LayersReading,
  PictureFacts,
  Place,
  ReadingId,
} from '@halflight/engine';
import type { Answer } from '../document/work.ts';

/** What is being done, and how far it is where that is known (0…1). */
export interface Progress {
  readonly doing: string;
  readonly share: number | null;
}

/** The colour space pictures are painted on the screen in. */
export type ScreenSpace = 'srgb' | 'display-p3';

/** What the worker must know of the page. */
export interface Surroundings {
  readonly screen: ScreenSpace;
  /** Address of the app's folder: where the codec lies. */
  readonly appBase: string;
}

/** A picture that has been opened. */
export interface OpenedPicture {
  readonly facts: PictureFacts;
  /** The close view, ready to be drawn. */
  readonly bitmap: ImageBitmap;
  /** Small picture for the shelf. */
  readonly thumb: Blob;
  /** Sentences about what could not be read as it stands in the file. */
  readonly remarks: readonly string[];
}

/** A reading as the screens show it: an examined reading without its maps, which are asked for by name. */
export interface SeenReading {
  readonly id: ReadingId;
  readonly title: string;
  readonly about: string;
  readonly sources: readonly string[];
  readonly evidence: Evidence;
  readonly value: unknown;
  readonly findings: readonly Finding[];
  readonly fine: string | null;
  readonly drawing: Drawing;
  readonly measures: readonly ExaminedMeasure[];
}

/** All readings of the open picture against an intent. */
export interface Seen {
  readonly readings: readonly SeenReading[];
  readonly findings: readonly Finding[];
  readonly settled: readonly Finding[];
  readonly undecided: readonly string[];
}

/** A reading's map in bytes, 0 (nothing) to 255 (fully flagged), row-major. */
export interface SeenMap {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array<ArrayBuffer>;
}

/** A part of the picture in its own pixels, and the size it is wanted at. */
export interface PictureWindow {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly outWidth: number;
  readonly outHeight: number;
}

/** What one place of the picture shows. */
export interface PlaceReading {
  /** Shares of the picture's width and height. */
  readonly x: number;
  readonly y: number;
  /** False where the picture is transparent: the colours then say nothing. */
  readonly painted: boolean;
  /** Linear light, sRGB primaries. */
  readonly rgb: readonly [number, number, number];
  /** In the picture's own space. */
  readonly hex: string;
  readonly space: string;
  /** CIELAB L*, 0…100. */
  readonly lightness: number;
  /** OKLCh chroma. */
  readonly chroma: number;
  /** OKLCh hue in degrees, null where it has no meaning. */
  readonly hue: number | null;
  /** "Violet-blue, dark, muted." */
  readonly words: string;
}

/** Calls of the picture worker, which owns the one open picture. Rejections carry a sentence for people. */
export interface PictureDesk {
  /** Loads the codec while nothing else is to be done. */
  warm(appBase: string): Promise<void>;
  open(
    file: Blob,
    name: string,
    surroundings: Surroundings,
    progress: (p: Progress) => void,
  ): Promise<OpenedPicture>;
  /** `baseline`: where the artist's finished works lie, null without; it holds for the edit as well. */
  examine(intent: Intent, answers: readonly Answer[], baseline: Baseline | null): Promise<Seen>;
  /** What the layers of the open picture are worth; the next reading counts them. */
  takeLayers(layers: LayersReading): Promise<void>;
  map(reading: ReadingId, name: string): Promise<SeenMap | null>;
  /** The separate places that a map flags, the largest first. */
  places(reading: ReadingId, name: string): Promise<readonly Place[]>;
  window(part: PictureWindow): Promise<ImageBitmap>;
  /** Reads a disc with this radius in pixels of the picture. */
  place(x: number, y: number, radius: number): Promise<PlaceReading>;
}

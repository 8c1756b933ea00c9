/** What a picture is handed over as. Every field can be changed; presets are first values only. */
export interface HandoverSettings {
  readonly schema: 'halflight/handover@1';
  /** Which of our presets it began as. */
  readonly preset: PresetName;
  readonly size: SizeSettings;
  /** Colour space of the file: the picture's own, one of CSS Color 4, or a profile from a file. */
  readonly space: 'own' | 'srgb' | 'display-p3' | 'a98-rgb' | ProfileSettings;
  readonly format: 'png' | 'jpeg' | 'tiff' | 'webp' | 'openraster';
  /** Bits a channel; JPEG, WebP hold 8. */
  readonly depth: 8 | 16;
  /** 1…100 for JPEG and WebP; 100 is without loss in WebP. */
  readonly quality: number;
  /** Sharpening after a change of size, 0 (off) to 100 %. */
  readonly sharpen: number;
  readonly metadata: MetadataSettings;
  /** The record of how it came to be, where one is made. */
  readonly process: ProcessSettings;
  /** How the file is called, without ending: words in braces stand for what `fileName` knows. */
  readonly name: string;
}

export type PresetName = 'screen' | 'print' | 'portfolio' | 'layered';

/** The size of the file, and how the picture fits into it. */
export interface SizeSettings {
  /**
   * 'own' keeps every pixel; 'within' makes the whole picture fit; 'fill' fills the size and cuts what overhangs,
   * the same on both sides; 'page' sets the whole picture on a ground of exactly this size.
   */
  readonly fit: 'own' | 'within' | 'fill' | 'page';
  /** In `unit`; null leaves the side free ('within' only). */
  readonly width: number | null;
  readonly height: number | null;
  readonly unit: 'px' | 'mm' | 'inch';
  /** Pixels an inch: makes pixels of millimetres and inches, and is written into the file; null writes none. */
  readonly pixelsPerInch: number | null;
  /** False never makes pixels that were not painted: a print of the asked size then has fewer pixels an inch. */
  readonly enlarge: boolean;
  /** Free border of a page on each side, in `unit`. */
  readonly margin: number;
  /** Colour of the ground of a page, and of what shows through where a format has no transparency: sRGB "#rrggbb". */
  readonly ground: string;
}

/** A profile that the artist chose. */
export interface ProfileSettings {
  /** Path or name of the ICC profile. */
  readonly profile: string;
  readonly intent: 'relative' | 'perceptual';
  /** Black-point compensation. */
  readonly blackPoint: boolean;
}

/** What is written beside the pixels. Empty texts are not written. */
export interface MetadataSettings {
  readonly title: string;
  readonly author: string;
  readonly rights: string;
  /** True keeps what else the picture's file says (camera, dates); its place goes nevertheless. */
  readonly keepOthers: boolean;
  /** True keeps the place too. */
  readonly keepLocation: boolean;
}

/** Pictures that follow each other: the edit step by step, the versions. */
export interface ProcessSettings {
  /** Long side of the animation in pixels. */
  readonly side: number;
  /** How long each picture stands; never under a third of a second (WCAG 2.3.1). */
  readonly seconds: number;
}

const PLAIN: MetadataSettings = {
  title: '',
  author: '',
  rights: '',
  keepOthers: false,
  keepLocation: false,
};

const OWN_SIZE: SizeSettings = {
  fit: 'own',
  width: null,
  height: null,
  unit: 'px',
  pixelsPerInch: null,
  enlarge: false,
  margin: 0,
  ground: '#ffffff',
};

const SCREEN: HandoverSettings = {
  schema: 'halflight/handover@1',
  preset: 'screen',
  size: { ...OWN_SIZE, fit: 'within', width: 2560, height: 2560 },
  space: 'srgb',
  format: 'jpeg',
  depth: 8,
  quality: 92,
  sharpen: 0,
  metadata: PLAIN,
  process: { side: 960, seconds: 1.2 },
  name: '{name}',
};

/** First values for the four occasions; sizes are common practice, no source. */
export const PRESETS: Readonly<Record<PresetName, HandoverSettings>> = {
  screen: SCREEN,
  print: {
    ...SCREEN,
    preset: 'print',
    size: { ...OWN_SIZE, fit: 'within', width: 420, height: 420, unit: 'mm', pixelsPerInch: 300 },
    space: 'a98-rgb',
    format: 'tiff',
    depth: 16,
    name: '{name} print',
  },
  portfolio: {
    ...SCREEN,
    preset: 'portfolio',
    size: {
      ...OWN_SIZE,
      fit: 'page',
      width: 297,
      height: 210,
      unit: 'mm',
      pixelsPerInch: 200,
      margin: 15,
      ground: '#ffffff',
    },
    name: '{name} page',
  },
  layered: {
    ...SCREEN,
    preset: 'layered',
    size: OWN_SIZE,
    space: 'own',
    format: 'openraster',
    depth: 16,
    name: '{name} layered',
  },
};

/** File ending of each format, without dot. */
export const ENDINGS: Readonly<Record<HandoverSettings['format'], string>> = {
  png: 'png',
  jpeg: 'jpg',
  tiff: 'tif',
  webp: 'webp',
  openraster: 'ora',
};

/** Bits that the format can hold at most, of those asked for. */
export function depthIn({ format, depth }: Pick<HandoverSettings, 'format' | 'depth'>): 8 | 16 {
  return format === 'jpeg' || format === 'webp' ? 8 : depth;
}

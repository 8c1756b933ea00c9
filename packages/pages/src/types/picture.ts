/**
 * A picture as a page carries it: the bytes of a file, sRGB, without transparency, in a format that every page can
 * hold. Pages never decode it.
 */
export interface PagePicture {
  readonly bytes: Uint8Array;
  readonly mediaType: 'image/jpeg' | 'image/png';
  /** In pixels. */
  readonly width: number;
  readonly height: number;
}

/** A colour that carries the picture. */
export interface PaletteColour {
  /** In painter's language, e.g. "deep blue". */
  readonly name: string;
  /** sRGB, "#rrggbb". */
  readonly hex: string;
  /** Share of the picture's area, 0…1. */
  readonly share: number;
  /** What it does in the picture: a hue family, a group of values, or an accent. */
  readonly role: 'family' | 'value' | 'accent';
}

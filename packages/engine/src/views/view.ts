/**
 * A small copy of the picture in linear light with sRGB primaries, averaged by area.
 *
 * `rgb` is row-major and interleaved, `width × height × 3`, unclipped (below 0 and above 1 for wider spaces),
 * not premultiplied: the average of what is opaque. `alpha` is the mean cover 0…1 of each place, or null
 * when the picture is opaque everywhere. `scale` is the number of view pixels in one pixel of the picture.
 */
export interface View {
  readonly width: number;
  readonly height: number;
  readonly rgb: Float32Array;
  readonly alpha: Float32Array | null;
  readonly scale: number;
  /** The view that this one was made from by an edit of colours, which leaves shapes where they are. */
  readonly editOf?: View;
}

/** The sizes that readings work on. */
export interface Views {
  /** At most 1.5 megapixels: what one sees close to the canvas. */
  readonly close: View;
  /** The close view at a long side of at most 900 px, on which lengths in strokes and octaves are counted. */
  readonly middle: View;
  /** At most 160 px, blurred with σ = 1/80 of the long side: what is left when one steps back. */
  readonly whole: View;
}

/** A scalar map over the picture, row-major, usually 0 (nothing) to 1 (fully flagged). */
export interface Field {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

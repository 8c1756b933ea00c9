/**
 * An area of the picture as a list of parts, put together in order.
 *
 * Everything is kept in shares of the picture's width and height, so that an area outlives a change of size.
 * An empty list is the whole picture.
 */
export interface Area {
  readonly parts: readonly AreaPart[];
  /** Widths of the soft border, as a share of the long side; 0 is as crisp as the painting's own edges. */
  readonly soften: number;
}

export type Joining = 'add' | 'subtract' | 'keep';

export type AreaPart = { readonly joining: Joining } & AreaShape;

export type AreaShape =
  /** Closed outlines, x and y in turn: drawn by the artist or taken from a reading's places. */
  | { readonly kind: 'outline'; readonly outlines: readonly (readonly number[])[] }
  /** CIELAB L* from … to: a value group. */
  | { readonly kind: 'values'; readonly from: number; readonly to: number }
  /** An arc of OKLCh hues in degrees, with chroma above 0.02. */
  | { readonly kind: 'hues'; readonly hue: number; readonly width: number }
  /** 0 at the first point, rising to 1 at the second. */
  | {
      readonly kind: 'gradient';
      readonly from: readonly [number, number];
      readonly to: readonly [number, number];
    };

import type { Graphic } from '../sheet/items.ts';
import type { PagePicture, PaletteColour } from '../types/picture.ts';

/**
 * What a page says, before it has a form: HTML is written from it, and sheets (PDF, SVG, PNG) are laid out from it.
 * All text is plain text.
 */
export interface Page {
  readonly title: string;
  /** One quiet line under the title. */
  readonly under: string;
  readonly author?: string;
  readonly blocks: readonly Block[];
  /** Sentences at the very end, e.g. a caution. */
  readonly closing: readonly string[];
}

export type Block =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'text'; readonly text: string; readonly as: 'note' | 'text' | 'caption' }
  /** One picture, or two to compare. */
  | { readonly kind: 'pictures'; readonly figures: readonly [PictureFigure, ...PictureFigure[]] }
  | { readonly kind: 'notes'; readonly notes: readonly Note[] }
  | { readonly kind: 'graphics'; readonly across: 1 | 2 | 3; readonly figures: readonly GraphicFigure[] }
  | { readonly kind: 'swatches'; readonly colours: readonly PaletteColour[] }
  | { readonly kind: 'table'; readonly rows: readonly (readonly [label: string, value: string])[] }
  /** `across`: how many stand in a row of a sheet, the paper’s own number unless told; HTML takes what fits. */
  | { readonly kind: 'cards'; readonly cards: readonly Card[]; readonly across?: number };

export interface PictureFigure {
  readonly picture: PagePicture;
  /** What it shows, for those who can't see it. */
  readonly alt: string;
  /** A few words to tell it from the other one. */
  readonly caption?: string;
  readonly marks?: readonly Mark[];
}

/** Drawn on a picture; all in shares of its width and height. */
export interface Mark {
  readonly kind: 'pin' | 'stroke' | 'outline';
  /** x and y in turn; a pin has one place. */
  readonly points: readonly number[];
  /** Number of the note that it belongs to. */
  readonly label?: string;
}

/** One thing that is said, with what stands in the margin beside it. */
export interface Note {
  /** Number that marks on the picture refer to. */
  readonly label?: string;
  /** The sentence itself. */
  readonly lead: string;
  readonly body: readonly string[];
  /** Small print in the margin. */
  readonly margin: readonly string[];
  /** A small picture with the places drawn on it. */
  readonly place?: PictureFigure;
  readonly swatches?: readonly { readonly label: string; readonly hex: string }[];
}

export interface GraphicFigure {
  readonly graphic: Graphic;
  readonly title?: string;
  readonly caption?: string;
  readonly alt: string;
}

/** A small picture with a few words. */
export interface Card {
  readonly picture: PagePicture;
  readonly alt: string;
  readonly title: string;
  readonly lines: readonly string[];
  /** Relative address. */
  readonly href?: string;
}

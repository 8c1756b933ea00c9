import type { PagePicture } from './picture.ts';

/** A page for one work of a class: the picture with what was drawn on it, and what was said. */
export interface CritiqueData {
  readonly schema: 'halflight/critique@1';
  /** Of the work. */
  readonly title: string;
  /** Whose work it is, as it shall be shown; absent when names are hidden. */
  readonly who?: string;
  /** Who speaks, as it shall be shown. */
  readonly by?: string;
  readonly assignment?: string;
  /** ISO 8601. */
  readonly made: string;
  readonly picture: PagePicture;
  /** In the order in which they shall be read; praise is put first by the page. */
  readonly points: readonly CritiquePoint[];
  /** What the readings find, after what was said by hand; may be empty. */
  readonly findings: readonly CritiqueFinding[];
  /** The picture with the proposed edit, and what the edit does, a sentence each. */
  readonly proposal?: { readonly picture: PagePicture; readonly steps: readonly string[] };
  /** One sentence for the end. */
  readonly closing?: string;
}

/** One thing that was said, with the marks that belong to it. */
export interface CritiquePoint {
  readonly kind: 'praise' | 'work';
  readonly text: string;
  readonly marks: readonly CritiqueMark[];
}

/** Drawn on the picture; all in shares of its width and height. */
export type CritiqueMark =
  | { readonly kind: 'pin'; readonly at: readonly [number, number] }
  /** An open line, x and y in turn. */
  | { readonly kind: 'stroke'; readonly points: readonly number[] }
  /** A closed outline, x and y in turn. */
  | { readonly kind: 'outline'; readonly points: readonly number[] };

/** A finding as a page for a student shows it. */
export interface CritiqueFinding {
  readonly text: string;
  readonly todo: string;
  /** Its number with unit and threshold. */
  readonly number?: string;
  /** Closed outlines of its places, in shares. */
  readonly outlines?: readonly (readonly number[])[];
}

import type { PagePicture } from '../types/picture.ts';

/**
 * A sheet as a display list: everything has its place, so that PDF, SVG and a canvas draw the same.
 * Units are 1/96 inch, y down. Paint is "#rrggbb".
 */
export interface Sheet {
  readonly title: string;
  readonly author?: string;
  readonly language: string;
  readonly width: number;
  readonly height: number;
  readonly ground: string;
  readonly pages: readonly SheetPage[];
}

export interface SheetPage {
  readonly parts: readonly Part[];
}

/** What belongs together for a reader: a heading, a paragraph, a figure; "Artifact" says nothing. */
export interface Part {
  readonly tag: 'H1' | 'H2' | 'P' | 'Figure' | 'Artifact';
  /** What a figure shows, for those who can't see it. */
  readonly alt?: string;
  readonly items: readonly Item[];
}

export type Weight = 'regular' | 'strong';

export type Item =
  | {
      readonly kind: 'text';
      readonly text: string;
      /** Start, middle or end of the baseline. */
      readonly x: number;
      readonly y: number;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly size: number;
      readonly weight: Weight;
      readonly fill: string;
    }
  | {
      readonly kind: 'picture';
      readonly picture: PagePicture;
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
    }
  | ({
      readonly kind: 'rect';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
    } & Painted)
  | ({ readonly kind: 'circle'; readonly cx: number; readonly cy: number; readonly r: number } & Painted)
  /** `d` as in SVG 2, section 9.3. */
  | ({ readonly kind: 'path'; readonly d: string } & Painted)
  | {
      readonly kind: 'group';
      readonly x: number;
      readonly y: number;
      readonly scale: number;
      readonly items: readonly Item[];
    };

export interface Painted {
  readonly fill?: string;
  readonly stroke?: string;
  readonly strokeWidth?: number;
  readonly dash?: readonly [number, number];
}

/** A drawing that can be set at any size. */
export interface Graphic {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

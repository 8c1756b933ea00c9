/**
 * A small drawing as data: one list of shapes that screens and reports paint alike.
 *
 * Coordinates run from 0 to `width` and 0 to `height`, y down. Paint is a colour in CSS notation where the
 * colour is the information, otherwise the name of a tone that the surroundings choose.
 */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
  /** What the drawing shows, for those who can't see it. */
  readonly sentence: string;
}

export type Tone = 'ink' | 'quiet' | 'faint' | 'ground' | 'none';
export type Paint = Tone | { readonly css: string };

export type Shape =
  | {
      readonly kind: 'path';
      readonly d: string;
      readonly fill: Paint;
      readonly stroke?: Paint;
      readonly strokeWidth?: number;
    }
  | {
      readonly kind: 'rect';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly fill: Paint;
      readonly stroke?: Paint;
    }
  | {
      readonly kind: 'circle';
      readonly cx: number;
      readonly cy: number;
      readonly r: number;
      readonly fill: Paint;
      readonly stroke?: Paint;
    }
  | {
      readonly kind: 'line';
      readonly x1: number;
      readonly y1: number;
      readonly x2: number;
      readonly y2: number;
      readonly stroke: Paint;
      readonly strokeWidth?: number;
      readonly dashed?: boolean;
    }
  | {
      readonly kind: 'text';
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly fill: Paint;
    }
  /** A map of the reading, painted with one colour per step of the palette (grey ramp when absent). */
  | {
      readonly kind: 'map';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly map: string;
      readonly palette?: readonly string[];
    };

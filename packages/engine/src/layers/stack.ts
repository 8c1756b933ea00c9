import type { Raster } from '../views/raster.ts';
import type { Meeting } from './meet.ts';

/** What layers and groups have in common. */
interface Placed extends Meeting {
  /** Tells it from all others in the picture; made of the names on the way to it. */
  readonly path: string;
  readonly name: string;
  readonly visible: boolean;
}

/** Painted pixels at a place of the canvas; `x` and `y` may lie outside of it. */
export interface PaintedLayer extends Placed {
  readonly kind: 'layer';
  readonly x: number;
  readonly y: number;
  /** Code values in the space of the whole picture. */
  readonly raster: Raster;
}

/** Layers that belong together. */
export interface LayerGroup<L = PaintedLayer> extends Placed {
  readonly kind: 'group';
  /** True: its layers are put together on their own and then meet what is below; false: each meets it itself. */
  readonly isolated: boolean;
  /** Lowest first. */
  readonly children: readonly (L | LayerGroup<L>)[];
}

export type LayerNode = PaintedLayer | LayerGroup;

/** A layered picture. Layers are put together in code values of its space, as painting programs do. */
export interface LayerStack {
  readonly width: number;
  readonly height: number;
  /** Lowest first; they meet on a transparent canvas. */
  readonly nodes: readonly LayerNode[];
}

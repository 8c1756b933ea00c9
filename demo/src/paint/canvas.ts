/** Where paint goes: linear colour and the thickness of the paint, for the whole picture or a band of its rows. */
import type { Rgb } from '../scene/index.ts';

/** Interleaved linear RGB and paint thickness (0…1) of rows `firstRow` … `firstRow + height`. */
export interface Canvas {
  readonly width: number;
  readonly height: number;
  readonly firstRow: number;
  /** Rows of the whole picture. */
  readonly fullHeight: number;
  readonly rgb: Float32Array;
  readonly relief: Float32Array;
}

/** A canvas toned with one colour. */
export function canvasOf(
  width: number,
  fullHeight: number,
  ground: Rgb,
  rows: readonly [number, number] = [0, fullHeight],
): Canvas {
  const height = rows[1] - rows[0];
  const rgb = new Float32Array(width * height * 3);
  for (let i = 0; i < rgb.length; i += 3) rgb.set(ground, i);
  const relief = new Float32Array(width * height).fill(0.3);
  return { width, height, firstRow: rows[0], fullHeight, rgb, relief };
}

import { guideOf, type ReadyRecipe, reduceView, rowsAt, type View } from '@halflight/engine';
import type { SeenMap } from '../../../picture/desk.ts';

/** The cover of one ready area over the picture, in bytes. */
export function showArea(ready: ReadyRecipe, area: number, close: View, side: number): SeenMap {
  const view = reduceView(close, side);
  const { width, height } = view;
  const guide = guideOf(view);
  const fill = rowsAt(ready.areas[area], width, height);
  const line = new Float32Array(width);
  const data = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    fill(guide.subarray(3 * y * width, 3 * (y + 1) * width), y, line);
    for (let x = 0; x < width; x++) data[y * width + x] = 255 * line[x] + 0.5;
  }
  return { width, height, data };
}

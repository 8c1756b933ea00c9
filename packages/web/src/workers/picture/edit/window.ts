import { type ColourSpace, type Raster, type ReadyRecipe, rowEditor } from '@halflight/engine';
import type { PictureWindow, ScreenSpace } from '../../../picture/desk.ts';
import { paintWindow, type ScreenPixels } from '../paint.ts';
import { inPortions } from './wishes.ts';

/**
 * A part of the full-size picture as it will be written, brought to the size it is wanted at: the kernel edits the
 * pixels at full depth, then they are averaged in linear light.
 *
 * Returns null when the wish is no longer the newest.
 */
export async function paintEditedWindow(
  ready: ReadyRecipe,
  raster: Raster,
  space: ColourSpace,
  part: PictureWindow,
  screen: ScreenSpace,
  isNewest: () => boolean,
): Promise<ScreenPixels | null> {
  const pixels: ScreenPixels = new Uint8ClampedArray(4 * part.outWidth * part.outHeight);
  // Areas know their place in the whole picture, so that then whole rows are edited.
  const cut = ready.areas.length === 0 ? columnsOf(raster, part) : { raster, x: part.x };
  const edit = rowEditor(ready, cut.raster, { space, depth: 16 });
  const step = part.height / part.outHeight;
  const done = await inPortions(
    part.outHeight,
    (from, to) => {
      const top = Math.max(0, Math.floor(part.y + from * step));
      const bottom = Math.min(raster.height, Math.ceil(part.y + to * step));
      const { width, channels } = cut.raster;
      const data = new Uint16Array(channels * width * (bottom - top));
      edit(top, bottom, data);
      const band: Raster = { width, height: bottom - top, channels, depth: 16, data, space };
      const inBand = {
        x: cut.x,
        width: part.width,
        outWidth: part.outWidth,
        y: part.y + from * step - top,
        height: (to - from) * step,
        outHeight: to - from,
      };
      pixels.set(paintWindow(band, inBand, screen), 4 * part.outWidth * from);
    },
    isNewest,
  );
  return done ? pixels : null;
}

/** The columns of a raster that a part needs, with the part's place in them. */
function columnsOf(raster: Raster, { x, width }: PictureWindow): { raster: Raster; x: number } {
  const left = Math.max(0, Math.floor(x) - 1);
  const right = Math.min(raster.width, Math.ceil(x + width) + 1);
  if (right - left === raster.width) return { raster, x };
  const { channels, height, data } = raster;
  const row = channels * (right - left);
  const cut = raster.depth === 8 ? new Uint8Array(row * height) : new Uint16Array(row * height);
  for (let y = 0; y < height; y++) {
    const from = channels * (y * raster.width + left);
    cut.set(data.subarray(from, from + row), row * y);
  }
  return { raster: { ...raster, width: right - left, data: cut }, x: x - left };
}

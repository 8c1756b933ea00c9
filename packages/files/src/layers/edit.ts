import {
  differenceLayer,
  drawGuide,
  largestDifference,
  layerCanvas,
  makeCloseView,
  type Place,
  type Raster,
  type Recipe,
  readyRecipe,
  rowEditor,
  stepKind,
} from '@halflight/engine';
import { breathe } from '../breathe.ts';
import { bytesSource } from '../dossier/source.ts';
import { openOpenRaster } from '../openraster/open.ts';
import { type LayerDraft, writeOpenRaster } from '../openraster/write.ts';
import { FileTrouble } from '../trouble.ts';
import type { Codec, Decoded } from '../types.ts';
import { png } from './flatten.ts';
import { paint, painterOf } from './paint.ts';
import { thumbnail } from './thumbnail.ts';

export interface EditLayers {
  readonly decoded: Pick<Decoded, 'raster' | 'facts' | 'profile'>;
  readonly recipe: Recipe;
  /** What a guide layer shows (`repaintPlaces` of what was found); without places there is none. */
  readonly places: readonly Place[];
}

/**
 * The edit as a layered file: the picture as painted, over it one layer for each step with the places that it
 * changes, and a hidden guide layer where something is to be repainted. Together the visible ones are the edited
 * picture; that is checked on what was written.
 *
 * @param how `onProgress` gets the share of the work done, 0…1
 * @throws FileTrouble when the file does not read back as it was meant; the signal's reason when aborted
 */
export async function editLayers(
  codec: Codec,
  { decoded, recipe, places }: EditLayers,
  how: { readonly signal?: AbortSignal | undefined; readonly onProgress?: (share: number) => void } = {},
): Promise<Uint8Array<ArrayBuffer>> {
  const { raster, facts } = decoded;
  const { width, height, space, depth } = raster;
  // Pixels that had to be converted on reading no longer belong to the file's own profile.
  const profile = decoded.profile !== null && facts.profile === space.name ? decoded.profile : null;
  const file = (of: Raster) => png(codec, of, { profile });
  const steps = recipe.steps.filter(({ on, strength }) => on && strength !== 0);
  // Each step, the picture as painted, the guide and the reading back.
  const tasks = steps.length + 3;
  let done = 0;
  const turn = async (): Promise<void> => {
    how.onProgress?.(++done / tasks);
    await breathe();
    how.signal?.throwIfAborted();
  };
  const children: LayerDraft[] = [
    { attributes: { name: 'As painted' }, x: 0, y: 0, png: await file(raster) },
  ];
  await turn();
  let before = raster;
  for (const [i, step] of steps.entries()) {
    const after = edited(raster, { ...recipe, steps: steps.slice(0, i + 1) });
    // An edit keeps what is transparent: laid atop, an opaque colour takes the alpha that is there.
    const layer = differenceLayer(opaque(before), opaque(after));
    const attributes = {
      name: stepKind(step.kind).title,
      ...(raster.channels === 4 ? { 'composite-op': 'svg:src-atop' } : {}),
    };
    children.push({ attributes, x: 0, y: 0, png: await file(layer) });
    before = after;
    await turn();
  }
  if (places.length > 0)
    children.push({
      attributes: { name: 'Guide layer', visibility: 'hidden' },
      x: 0,
      y: 0,
      png: await file(drawGuide(places, raster, space)),
    });
  await turn();
  const bytes = await writeOpenRaster({
    width,
    height,
    root: { attributes: {}, children },
    merged: await file(before),
    thumbnail: await thumbnail(codec, before),
  });
  const limitMegapixels = Number.MAX_SAFE_INTEGER;
  const back = await openOpenRaster(bytesSource(bytes, facts.name), limitMegapixels);
  const canvas = layerCanvas(width, height);
  await paint(canvas, back.nodes, painterOf(back, { codec, limitMegapixels, signal: how.signal }));
  if (largestDifference(before, canvas.raster(depth, space)) > 1)
    throw new FileTrouble(
      'write',
      `The layers of “${facts.name}” did not read back as they were meant.`,
      'Nothing was written. Please tell the makers of Halflight.',
    );
  how.onProgress?.(1);
  return bytes;
}

function edited(raster: Raster, recipe: Recipe): Raster {
  const { width, height, channels, depth, space } = raster;
  const view = recipe.steps.some((step) => step.area) ? makeCloseView(raster) : null;
  const data = new (depth === 8 ? Uint8Array : Uint16Array)(channels * width * height);
  rowEditor(readyRecipe(recipe, view), raster, { space, depth })(0, height, data);
  return { ...raster, data };
}

/** The colours alone. */
function opaque(raster: Raster): Raster {
  if (raster.channels === 3) return raster;
  const data = raster.data.slice();
  const full = 2 ** raster.depth - 1;
  for (let i = 3; i < data.length; i += 4) data[i] = full;
  return { ...raster, data };
}

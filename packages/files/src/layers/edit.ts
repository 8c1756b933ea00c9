import {
  type ColourSpace,
  differenceLayer,
  drawGuide,
  EMPTY_RECIPE,
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
import type { Codec, Decoded, EncodeOptions } from '../types.ts';
import { paint, painterOf } from './paint.ts';
import { thumbnail } from './thumbnail.ts';

export interface EditLayers {
  readonly decoded: Pick<Decoded, 'raster' | 'facts' | 'profile'>;
  readonly recipe: Recipe;
  /** How the layers are written; as the picture is unless told. */
  readonly target?: LayersTarget;
  /** What a guide layer shows (`repaintPlaces` of what was found); without places there is none. */
  readonly places: readonly Place[];
}

/** What the pixels of layers are. */
export interface LayersTarget {
  readonly space: ColourSpace;
  readonly depth: 8 | 16;
  /** The profile that is attached; one of the space itself when there is none. */
  readonly profile: EncodeOptions['profile'];
  /** What is written beside the pixels of the picture as painted, and of all layers together. */
  readonly metadata?: EncodeOptions['metadata'];
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
  { decoded, recipe, places, target = ownTarget(decoded) }: EditLayers,
  how: { readonly signal?: AbortSignal | undefined; readonly onProgress?: (share: number) => void } = {},
): Promise<Uint8Array<ArrayBuffer>> {
  const { raster, facts } = decoded;
  const { width, height } = raster;
  const { space, depth, profile, metadata } = target;
  const file = async (of: Raster, more: Pick<EncodeOptions, 'metadata'> = {}) =>
    new Uint8Array(
      await codec.encode(of, { format: 'png', ...more, ...(profile === undefined ? {} : { profile }) }),
    );
  const words = metadata ? { metadata } : {};
  const steps = recipe.steps.filter(({ on, strength }) => on && strength !== 0);
  // Each step, the picture as painted, the guide and the reading back.
  const tasks = steps.length + 3;
  let done = 0;
  const turn = async (): Promise<void> => {
    how.onProgress?.(++done / tasks);
    await breathe();
    how.signal?.throwIfAborted();
  };
  let before = edited(raster, EMPTY_RECIPE, target);
  const children: LayerDraft[] = [
    { attributes: { name: 'As painted' }, x: 0, y: 0, png: await file(before, words) },
  ];
  await turn();
  for (const [i, step] of steps.entries()) {
    const after = edited(raster, { ...recipe, steps: steps.slice(0, i + 1) }, target);
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
      png: await file(drawGuide(places, before, space)),
    });
  await turn();
  const bytes = await writeOpenRaster({
    width,
    height,
    root: { attributes: {}, children },
    merged: await file(before, words),
    thumbnail: await thumbnail(codec, before),
  });
  const limitMegapixels = Number.MAX_SAFE_INTEGER;
  const back = await openOpenRaster(bytesSource(bytes, facts.name), limitMegapixels);
  const canvas = layerCanvas(width, height);
  await paint(canvas, back.nodes, painterOf(back, { codec, limitMegapixels, signal: how.signal }));
  const merged = await codec.decode((await back.merged())!, { name: 'mergedimage.png', limitMegapixels });
  if (
    largestDifference(before, canvas.raster(depth, space)) > 1 ||
    largestDifference(before, merged.raster) > 0
  )
    throw new FileTrouble(
      'write',
      `The layers of “${facts.name}” did not read back as they were meant.`,
      'Nothing was written. Please tell the makers of Halflight.',
    );
  how.onProgress?.(1);
  return bytes;
}

/** Pixels that had to be converted on reading no longer belong to the file's own profile. */
function ownTarget({ raster, facts, profile }: EditLayers['decoded']): LayersTarget {
  const { space, depth } = raster;
  return { space, depth, profile: profile !== null && facts.profile === space.name ? profile : undefined };
}

function edited(raster: Raster, recipe: Recipe, { space, depth }: LayersTarget): Raster {
  const { width, height, channels } = raster;
  if (recipe.steps.length === 0 && space === raster.space && depth === raster.depth) return raster;
  const view = recipe.steps.some((step) => step.area) ? makeCloseView(raster) : null;
  const data = new (depth === 8 ? Uint8Array : Uint16Array)(channels * width * height);
  rowEditor(readyRecipe(recipe, view), raster, { space, depth })(0, height, data);
  return { width, height, channels, depth, data, space };
}

/** The colours alone. */
function opaque(raster: Raster): Raster {
  if (raster.channels === 3) return raster;
  const data = raster.data.slice();
  const full = 2 ** raster.depth - 1;
  for (let i = 3; i < data.length; i += 4) data[i] = full;
  return { ...raster, data };
}

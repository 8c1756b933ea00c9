import {
  differenceLayer,
  drawGuide,
  examine,
  layerCanvas,
  makeCloseView,
  OPEN_INTENT,
  type Raster,
  type Recipe,
  readingInput,
  readyRecipe,
  rowEditor,
  stepKind,
} from '@halflight/engine';
import { type Codec, type Decoded, FileTrouble } from '@halflight/files';
import { largestDifference, paint, painterOf, thumbnail } from '@halflight/files/layers';
import { bytesSource, type LayerDraft, openOpenRaster, writeOpenRaster } from '@halflight/files/openraster';
import { measure } from '../check/measure.ts';
import { repaintPlaces } from '../guide/places.ts';

/**
 * The edit as a layered file: the picture as painted, over it one layer for each step with the places that it
 * changes, and a hidden guide layer where something is to be repainted. Together the visible ones are the edited
 * picture; that is checked on what was written.
 *
 * @throws FileTrouble when the file does not read back as it was meant
 */
export async function editLayered(codec: Codec, decoded: Decoded, recipe: Recipe): Promise<Uint8Array> {
  const { raster, facts } = decoded;
  const { width, height, space, depth } = raster;
  // Pixels that had to be converted on reading no longer belong to the file's own profile.
  const profile = decoded.profile !== null && facts.profile === space.name ? decoded.profile : null;
  const png = async (of: Raster): Promise<Uint8Array<ArrayBuffer>> =>
    new Uint8Array(await codec.encode(of, { format: 'png', ...(profile ? { profile } : {}) }));
  const children: LayerDraft[] = [{ attributes: { name: 'As painted' }, x: 0, y: 0, png: await png(raster) }];
  let before = raster;
  for (const [i, step] of recipe.steps.entries()) {
    if (!step.on || step.strength === 0) continue;
    const after = edited(raster, { ...recipe, steps: recipe.steps.slice(0, i + 1) });
    // An edit keeps what is transparent: laid atop, an opaque colour takes the alpha that is there.
    const layer = differenceLayer(opaque(before), opaque(after));
    const attributes = {
      name: stepKind(step.kind).title,
      ...(raster.channels === 4 ? { 'composite-op': 'svg:src-atop' } : {}),
    };
    children.push({ attributes, x: 0, y: 0, png: await png(layer) });
    before = after;
  }
  const places = repaintPlaces(
    examine(readingInput({ picture: facts, ...measure(raster), intent: OPEN_INTENT, baseline: null })),
  );
  if (places.length > 0)
    children.push({
      attributes: { name: 'Guide layer', visibility: 'hidden' },
      x: 0,
      y: 0,
      png: await png(drawGuide(places, raster, space)),
    });
  const bytes = await writeOpenRaster({
    width,
    height,
    root: { attributes: {}, children },
    merged: await png(before),
    thumbnail: await thumbnail(codec, before),
  });
  const limitMegapixels = Number.MAX_SAFE_INTEGER;
  const back = await openOpenRaster(bytesSource(bytes, facts.name), limitMegapixels);
  const canvas = layerCanvas(width, height);
  await paint(canvas, back.nodes, painterOf(back, { codec, limitMegapixels }));
  if (largestDifference(before, canvas.raster(depth, space)) > 1)
    throw new FileTrouble(
      'write',
      `The layers of “${facts.name}” did not read back as they were meant.`,
      'Nothing was written. Please tell the makers of Halflight.',
    );
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
  data.forEach((_, i) => {
    if (i % 4 === 3) data[i] = 2 ** raster.depth - 1;
  });
  return { ...raster, data };
}

import {
  type ColourSpace,
  editStages,
  makeCloseView,
  type Recipe,
  reduceView,
  type View,
  workingSteps,
} from '@halflight/engine';
import type { Codec } from '@halflight/files';
import { holdAnimation, holdMarkup, type MeantFrame } from '@halflight/files/handover';
import { editStripPage, layOut, sheetSvg, stepWords, stripPaper } from '@halflight/pages';
import { animatedWebp } from '../../../picture/animatedWebp.ts';
import type { Progress } from '../../../picture/desk.ts';
import type { Written } from '../../../picture/edit-desk.ts';
import type { RecordWish } from '../../../picture/handover-desk.ts';
import { paintView } from '../paint.ts';
import { sheetPng } from './draw.ts';
import { typeface } from './fonts.ts';
import { PICTURES } from './report.ts';

/** L* 50, and what shows through where a picture is transparent or of another shape. */
const GROUND = '#777777';
const SMALL = 420;

/** What is recorded of the open picture. */
export interface Recorded {
  readonly close: View;
  readonly space: ColourSpace;
  readonly recipe: Recipe;
}

/** The edit step by step, or the versions that are given, as an animation; the edit as a strip too. */
export async function makeRecord(
  codec: Codec,
  { close, space, recipe }: Recorded,
  wish: RecordWish,
  progress: (p: Progress) => void,
): Promise<Written> {
  const { name, format, side, seconds } = wish;
  if (format === 'webp') {
    const views =
      wish.versions === null
        ? editStages(recipe, close, side, space)
        : await versionViews(codec, wish.versions, side, progress);
    return animation(codec, views, seconds, name);
  }
  const steps = workingSteps(recipe).map(stepWords);
  const pictures: Awaited<ReturnType<typeof PICTURES.view>>[] = [];
  for (const stage of editStages(recipe, close, SMALL, space))
    pictures.push(await PICTURES.view(stage, SMALL));
  const page = editStripPage(wish.title, pictures, steps);
  const face = await typeface();
  const sheet = layOut(page, stripPaper(page), face);
  if (format === 'png') return { name, blob: await sheetPng(sheet, face), readBack: true };
  const svg = sheetSvg(sheet, face);
  holdMarkup(svg, { counts: { svg: 1, title: 1, image: pictures.length }, texts: [] }, name);
  return { name, blob: new Blob([svg], { type: 'image/svg+xml' }), readBack: true };
}

async function versionViews(
  codec: Codec,
  versions: readonly { readonly name: string; readonly file: Blob }[],
  side: number,
  progress: (p: Progress) => void,
): Promise<View[]> {
  const views: View[] = [];
  for (const [k, { name, file }] of versions.entries()) {
    progress({ doing: 'Reading the versions', share: k / versions.length });
    const { raster } = await codec.decode(new Uint8Array(await file.arrayBuffer()), { name });
    views.push(reduceView(makeCloseView(raster), side));
  }
  return views;
}

/** Each view whole on neutral grey, one after the other. */
async function animation(
  codec: Codec,
  views: readonly View[],
  seconds: number,
  name: string,
): Promise<Written> {
  const width = Math.max(...views.map((view) => view.width));
  const height = Math.max(...views.map((view) => view.height));
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { alpha: false });
  if (!context) throw new Error('The browser gave no room to draw. Close other tabs and try again.');
  const stills: Uint8Array[] = [];
  const meant: MeantFrame[] = [];
  for (const view of views) {
    context.fillStyle = GROUND;
    context.fillRect(0, 0, width, height);
    const image = new ImageData(paintView(view, 'srgb'), view.width, view.height);
    const bitmap = await createImageBitmap(image);
    const scale = Math.min(width / view.width, height / view.height);
    const [w, h] = [scale * view.width, scale * view.height];
    context.imageSmoothingQuality = 'high';
    context.drawImage(bitmap, (width - w) / 2, (height - h) / 2, w, h);
    bitmap.close();
    meant.push({ channels: 4, data: new Uint8Array(context.getImageData(0, 0, width, height).data) });
    const still = await canvas.convertToBlob({ type: 'image/webp', quality: 0.9 });
    if (still.type !== 'image/webp')
      throw new Error(
        'This browser writes no WebP pictures. Save a strip, or use “halflight handover --process”.',
      );
    stills.push(new Uint8Array(await still.arrayBuffer()));
  }
  const bytes = animatedWebp(stills, width, height, 1000 * seconds);
  // The browser's own decoders show the first picture only.
  const readBack = codec.kind === 'full';
  if (readBack) await holdAnimation(codec, bytes, meant, width, height, name);
  return { name, blob: new Blob([bytes], { type: 'image/webp' }), readBack };
}

import {
  type Census,
  type Examination,
  type ExaminedReading,
  examine,
  paletteOf,
  type ReadingInput,
  type Recipe,
  reduceView,
  type View,
  type Views,
} from '@halflight/engine';
import {
  A4,
  gatherReport,
  LONG,
  layOut,
  mapsIn,
  type PagePicture,
  pageHtml,
  paintMap,
  type ReadReading,
  type ReportData,
  type ReportKind,
  reportJson,
  reportPage,
} from '@halflight/pages';
import { sheetPdf } from '@halflight/pages/pdf';
import type { ReportFormat, ReportWish } from '../../../picture/handover-desk.ts';
import { paintView } from '../paint.ts';
import { sheetPng } from './draw.ts';
import { typeface } from './fonts.ts';

const LARGE = 1600;
const SMALL = 420;
/** L* 50: what shows through where a picture is transparent. */
const GROUND = '#777777';

/** What a report is read from: the picture as its edit makes it, and as it was. */
export interface ReportPicture {
  readonly input: ReadingInput;
  readonly census: Census;
  readonly views: Views;
  /** Without the edit; null when there is none. */
  readonly before: View | null;
}

/** Reads the edited picture and puts together what a report says of it. */
export async function collect(
  { input, census, views, before }: ReportPicture,
  recipe: Recipe,
  { title, author, intent, answers, looks, decided, process }: ReportWish,
): Promise<ReportData> {
  const examination: Examination = examine({ ...input, census, views }, answers);
  return gatherReport({
    title,
    ...(author && { author }),
    made: new Date().toISOString(),
    picture: input.picture,
    now: await pictureOf(views.close, LARGE),
    small: await pictureOf(views.close, SMALL),
    ...(before && {
      before: { label: 'as it was before the edit', picture: await pictureOf(before, LARGE) },
    }),
    intent,
    recipe: before ? recipe : null,
    examination,
    readings: await Promise.all(examination.readings.map(readReading)),
    answers,
    palette: paletteOf(census),
    looks,
    ...(decided && { decided }),
    ...(process && {
      process: {
        points: process.points,
        sentence: process.sentence,
        versions: await Promise.all(
          process.versions.map(async ({ small, ...version }) => ({
            ...version,
            small: await smallOf(small),
          })),
        ),
      },
    }),
  });
}

/** A report as a file. */
export async function make(data: ReportData, kind: ReportKind, format: ReportFormat): Promise<Blob> {
  if (format === 'json') return new Blob([reportJson(data)], { type: 'application/json' });
  const page = reportPage(data, kind);
  const face = await typeface();
  if (format === 'html') return new Blob([pageHtml(page, face)], { type: 'text/html' });
  if (format === 'png') return sheetPng(layOut(page, LONG, face), face);
  const bytes = await sheetPdf(layOut(page, A4, face), face, data.made);
  return new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'application/pdf' });
}

async function pictureOf(view: View, side: number): Promise<PagePicture> {
  const small = reduceView(view, side);
  const image = new ImageData(paintView(small, 'srgb'), small.width, small.height);
  return encoded(await createImageBitmap(image), 0.88);
}

const smallOf = async (blob: Blob): Promise<PagePicture> => encoded(await createImageBitmap(blob), 0.88);

/** As JPEG: a canvas writes PNG with transparency, which the library of PDF takes apart without end in a worker. */
async function encoded(bitmap: ImageBitmap, quality: number): Promise<PagePicture> {
  const { width, height } = bitmap;
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d');
  if (!context) throw new Error('The browser gave no room to draw the page. Close other tabs and try again.');
  context.fillStyle = GROUND;
  context.fillRect(0, 0, width, height);
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality });
  return { bytes: new Uint8Array(await blob.arrayBuffer()), mediaType: 'image/jpeg', width, height };
}

async function readReading(examined: ExaminedReading): Promise<ReadReading> {
  const { id, title, about, fine, drawing, measures, reading } = examined;
  const maps: Record<string, PagePicture> = {};
  for (const { map, palette } of mapsIn(drawing)) {
    const field = reading.maps[map]?.();
    if (!field) continue;
    const { width, height, data } = paintMap(field, palette);
    const image = new ImageData(width, height);
    for (let p = 0; p < width * height; p++) {
      image.data.set(data.subarray(3 * p, 3 * p + 3), 4 * p);
      image.data[4 * p + 3] = 255;
    }
    maps[map] = await encoded(await createImageBitmap(image), 0.95);
  }
  return { id, title, about, fine, drawing, measures, evidence: reading.evidence, maps };
}

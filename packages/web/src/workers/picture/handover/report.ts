import { reduceView } from '@halflight/engine';
import {
  A4,
  collectReport,
  LONG,
  layOut,
  type PagePicture,
  type PictureMaker,
  pageHtml,
  type ReportData,
  type ReportKind,
  type ReportSubject,
  reportJson,
  reportPage,
  reportTold,
} from '@halflight/pages';
import { sheetPdf } from '@halflight/pages/pdf';
import type { ReportFormat, ReportWish } from '../../../picture/handover-desk.ts';
import { paintView } from '../paint.ts';
import { sheetPng } from './draw.ts';
import { typeface } from './fonts.ts';

/** L* 50: what shows through where a picture is transparent. */
const GROUND = '#777777';

/** Reads the edited picture and puts together what a report says of it. */
export async function collect(
  subject: ReportSubject,
  { title, author, looks, decided, process }: ReportWish,
): Promise<ReportData> {
  const words = {
    title,
    ...(author && { author }),
    made: new Date().toISOString(),
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
  };
  return collectReport(subject, words, PICTURES);
}

/** A report as a file. */
export async function make(data: ReportData, kind: ReportKind, format: ReportFormat): Promise<Blob> {
  const { holdJson, holdMarkup, holdPdf } = await import('@halflight/files/handover');
  if (format === 'json') {
    const json = reportJson(data);
    holdJson(json, reportTold(data), 'report.json');
    return new Blob([json], { type: 'application/json' });
  }
  const page = reportPage(data, kind);
  const face = await typeface();
  if (format === 'html') {
    const html = pageHtml(page, face);
    const headings = page.blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : []));
    const pictures = page.blocks.flatMap((block) => (block.kind === 'pictures' ? block.figures : []));
    const counts = { h1: 1, h2: headings.length, img: pictures.length };
    holdMarkup(html, { counts, texts: headings }, 'report.html');
    return new Blob([html], { type: 'text/html' });
  }
  if (format === 'png') return sheetPng(layOut(page, LONG, face), face);
  const sheet = layOut(page, A4, face);
  const bytes = await sheetPdf(sheet, face, data.made);
  await holdPdf(bytes, sheet.pages.length, 'report.pdf');
  return new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'application/pdf' });
}

/** Pictures of a page by the browser's own encoder. */
export const PICTURES: PictureMaker = {
  async view(view, side) {
    const small = reduceView(view, side);
    const image = new ImageData(paintView(small, 'srgb'), small.width, small.height);
    return encoded(await createImageBitmap(image), 0.88);
  },
  async map({ width, height, data }) {
    const image = new ImageData(width, height);
    for (let p = 0; p < width * height; p++) {
      image.data.set(data.subarray(3 * p, 3 * p + 3), 4 * p);
      image.data[4 * p + 3] = 255;
    }
    return encoded(await createImageBitmap(image), 0.95);
  },
};

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

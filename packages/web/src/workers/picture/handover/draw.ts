import type { Item, PagePicture, Painted, Sheet, Typeface } from '@halflight/pages';

/** Pixels of a PNG for each unit of its sheet. */
const DENSITY = 1.5;

/** The first page of a sheet as PNG: the same places as in PDF and SVG, letters as outlines; decoded again before it is given. */
export async function sheetPng(sheet: Sheet, typeface: Typeface): Promise<Blob> {
  const canvas = new OffscreenCanvas(Math.round(DENSITY * sheet.width), Math.round(DENSITY * sheet.height));
  const context = canvas.getContext('2d');
  if (!context) throw new Error('The browser gave no room to draw the page. Close other tabs and try again.');
  context.scale(DENSITY, DENSITY);
  context.fillStyle = sheet.ground;
  context.fillRect(0, 0, sheet.width, sheet.height);
  const bitmaps = new Map<PagePicture, ImageBitmap>();
  for (const part of sheet.pages[0].parts) await draw(context, part.items, typeface, bitmaps);
  const blob = await canvas.convertToBlob({ type: 'image/png' });
  // Read again before anybody gets it.
  const read = await createImageBitmap(blob);
  const sound = read.width === canvas.width && read.height === canvas.height;
  read.close();
  if (!sound) throw new Error('The page did not read back as it was drawn. Nothing was kept; try once more.');
  return blob;
}

async function draw(
  context: OffscreenCanvasRenderingContext2D,
  items: readonly Item[],
  typeface: Typeface,
  bitmaps: Map<PagePicture, ImageBitmap>,
): Promise<void> {
  for (const item of items)
    switch (item.kind) {
      case 'text': {
        const { text, x, y, anchor, size, weight, fill } = item;
        const width = typeface.width(text, weight, size);
        const from = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
        context.fillStyle = fill;
        context.fill(new Path2D(typeface.outline(text, weight, size, from, y)));
        break;
      }
      case 'picture': {
        const { picture, x, y, width, height } = item;
        const bitmap = bitmaps.get(picture) ?? (await createImageBitmap(blobOf(picture)));
        bitmaps.set(picture, bitmap);
        context.imageSmoothingQuality = 'high';
        context.drawImage(bitmap, x, y, width, height);
        break;
      }
      case 'rect': {
        const path = new Path2D();
        path.rect(item.x, item.y, item.width, item.height);
        paint(context, path, item);
        break;
      }
      case 'circle': {
        const path = new Path2D();
        path.arc(item.cx, item.cy, item.r, 0, 2 * Math.PI);
        paint(context, path, item);
        break;
      }
      case 'path':
        paint(context, new Path2D(item.d), item);
        break;
      case 'group':
        context.save();
        context.translate(item.x, item.y);
        context.scale(item.scale, item.scale);
        await draw(context, item.items, typeface, bitmaps);
        context.restore();
    }
}

const blobOf = ({ bytes, mediaType }: PagePicture): Blob =>
  new Blob([bytes as Uint8Array<ArrayBuffer>], { type: mediaType });

function paint(
  context: OffscreenCanvasRenderingContext2D,
  path: Path2D,
  { fill, stroke, strokeWidth = 1, dash }: Painted,
): void {
  if (fill) {
    context.fillStyle = fill;
    context.fill(path);
  }
  if (!stroke) return;
  context.strokeStyle = stroke;
  context.lineWidth = strokeWidth;
  context.setLineDash(dash ? [...dash] : []);
  context.stroke(path);
}

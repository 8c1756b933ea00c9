import PDFDocument from 'pdfkit';
import type { Item, Painted, Part, Sheet, Weight } from '../sheet/items.ts';
import type { Typeface } from '../sheet/typeface.ts';
import type { PagePicture } from '../types/picture.ts';

/** What the library keeps of a picture that it has read. */
type Image = Parameters<PDFKit.PDFDocument['image']>[0];
/** Its types lack that a picture can be read ahead. */
type Document = PDFKit.PDFDocument & { openImage(bytes: Uint8Array): Image };

/** Points of a PDF in a unit of a sheet. */
const POINTS = 0.75;

/**
 * A sheet as PDF 1.7: text that can be selected and searched, tagged for screen readers, with title and language.
 *
 * @param made when it was made, ISO 8601: the same sheet gives the same bytes
 */
export async function sheetPdf(sheet: Sheet, typeface: Typeface, made: string): Promise<Uint8Array> {
  const { title, author, language, width, height } = sheet;
  const date = new Date(Number.isNaN(Date.parse(made)) ? 0 : made);
  const doc = new PDFDocument({
    autoFirstPage: false,
    size: [width * POINTS, height * POINTS],
    margin: 0,
    pdfVersion: '1.7',
    tagged: true,
    displayTitle: true,
    lang: language,
    // Left to itself the library asks for a standard font, which its browser build does not hold.
    font: typeface.fonts.regular[0] as unknown as string,
    info: { Title: title, ...(author && { Author: author }), CreationDate: date, ModDate: date },
  }) as Document;
  const chunks: Uint8Array[] = [];
  doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
  const ended = new Promise<void>((resolve, reject) => {
    doc.on('end', () => resolve());
    doc.on('error', reject);
  });
  for (const weight of ['regular', 'strong'] as const)
    typeface.fonts[weight].forEach((bytes, piece) => {
      doc.registerFont(`${weight}${piece}`, bytes as Parameters<Document['registerFont']>[1]);
    });
  const pen = penFor(doc, typeface);
  const whole = doc.struct('Document');
  doc.addStructure(whole);
  for (const { parts } of sheet.pages) {
    doc.addPage();
    doc.scale(POINTS);
    for (const part of parts) addPart(doc, whole, part, pen);
  }
  whole.end();
  doc.end();
  await ended;
  return joined(chunks);
}

type Pen = (items: readonly Item[]) => void;

function addPart(
  doc: Document,
  whole: PDFKit.PDFStructureElement,
  { tag, alt, items }: Part,
  pen: Pen,
): void {
  if (tag === 'Artifact') {
    doc.markContent('Artifact', { type: 'Layout' });
    pen(items);
    doc.endMarkedContent();
    return;
  }
  whole.add(doc.struct(tag, { ...(alt && { alt }) }, () => pen(items)));
}

function penFor(doc: Document, typeface: Typeface): Pen {
  const images = new Map<PagePicture, Image>();
  const imageOf = (picture: PagePicture): Image => {
    const kept = images.get(picture);
    if (kept) return kept;
    // Each picture goes into the file once, however often it is shown.
    const opened = doc.openImage(picture.bytes);
    images.set(picture, opened);
    return opened;
  };
  const drawText = ({ text, x, y, anchor, size, weight, fill }: Extract<Item, { kind: 'text' }>): void => {
    const width = typeface.width(text, weight, size);
    let at = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
    for (const run of typeface.runs(text, weight)) {
      doc
        .font(fontName(weight, run.piece))
        .fontSize(size)
        .fillColor(fill)
        .text(run.text, at, y, { lineBreak: false, baseline: 'alphabetic' });
      at += size * run.width;
    }
  };
  const draw = (item: Item): void => {
    switch (item.kind) {
      case 'text':
        drawText(item);
        break;
      case 'picture': {
        const { picture, x, y, width, height } = item;
        doc.image(imageOf(picture), x, y, { width, height });
        break;
      }
      case 'rect':
        doc.rect(item.x, item.y, item.width, item.height);
        paint(doc, item);
        break;
      case 'circle':
        doc.circle(item.cx, item.cy, item.r);
        paint(doc, item);
        break;
      case 'path':
        doc.path(item.d);
        paint(doc, item);
        break;
      case 'group':
        doc.save().translate(item.x, item.y).scale(item.scale);
        item.items.forEach(draw);
        doc.restore();
    }
  };
  return (items) => items.forEach(draw);
}

const fontName = (weight: Weight, piece: number): string => `${weight}${piece}`;

function paint(doc: Document, { fill, stroke, strokeWidth = 1, dash }: Painted): void {
  if (stroke) {
    doc.lineWidth(strokeWidth);
    if (dash) doc.dash(dash[0], { space: dash[1] });
    else doc.undash();
  }
  if (fill && stroke) doc.fillAndStroke(fill, stroke);
  else if (fill) doc.fill(fill);
  else if (stroke) doc.stroke(stroke);
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const chunk of chunks) {
    out.set(chunk, at);
    at += chunk.length;
  }
  return out;
}

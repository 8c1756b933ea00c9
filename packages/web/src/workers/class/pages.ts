import type { ClassOverviewData, CritiqueData, PagePicture } from '@halflight/pages';
import {
  A4,
  critiquePage,
  layOut,
  openTypeface,
  overviewPage,
  type Page,
  pageHtml,
  shownName,
} from '@halflight/pages';
import { pageFonts } from './fonts.ts';
import type { PageFile, PagesRequest, PageWork } from './request.ts';

const encoder = new TextEncoder();

/** Writes every page, one file after the other: never more than one is in memory. */
export async function* pageFiles(
  request: PagesRequest,
  tell: (done: number, all: number) => void,
): AsyncGenerator<PageFile> {
  const typeface = openTypeface(await pageFonts());
  const { works, made, pdf, now } = request;
  const toPdf = pdf ? await pdfMaker() : null;
  const stems = stemsOf(request);
  async function* both(page: Page, stem: string): AsyncGenerator<PageFile> {
    yield { name: `${stem}.html`, bytes: encoder.encode(pageHtml(page, typeface)) };
    if (toPdf) yield { name: `${stem}.pdf`, bytes: await toPdf(page) };
  }
  async function pdfMaker(): Promise<(page: Page) => Promise<Uint8Array<ArrayBuffer>>> {
    const { sheetPdf } = await import('@halflight/pages/pdf');
    return async (page) => new Uint8Array(await sheetPdf(layOut(page, A4, typeface), typeface, made));
  }
  for (const [index, work] of works.entries()) {
    tell(index, works.length + 1);
    yield* both(critiquePage(await critiqueData(request, work, index)), stems[index]);
  }
  tell(works.length, works.length + 1);
  yield* both(
    overviewPage(await overviewData(request, stems)),
    `${plainName(now.title) || 'Class'} overview`,
  );
}

/** Names of files say no more of people than the pages do. */
function stemsOf({ now, works }: PagesRequest): string[] {
  const digits = String(works.length).length;
  return works.map(({ work }, index) => {
    const place = String(index + 1).padStart(digits, '0');
    const name = now.names === 'hidden' ? 'work' : plainName(shownName(work.who, index, now.names));
    return `${place} ${name || 'work'}`;
  });
}

/** A name that every file system takes: letters, digits and spaces. */
function plainName(text: string): string {
  const plain = text.normalize('NFC').replace(/[^\p{L}\p{N}]+/gu, ' ');
  return plain.trim().slice(0, 60).trim();
}

async function critiqueData(
  { now, made }: PagesRequest,
  one: PageWork,
  index: number,
): Promise<CritiqueData> {
  const { work, read, page, after } = one;
  const { points = [], proposal, closing } = now.critiques[work.id] ?? {};
  const hidden = now.names === 'hidden';
  const taken = new Set(points.map(({ finding }) => finding));
  return {
    schema: 'halflight/critique@1',
    // Titles of works often name people, as names of files do.
    title: hidden ? `Work ${index + 1}` : work.title || now.title,
    ...(!hidden && { who: shownName(work.who, index, now.names) }),
    ...(now.by && { by: now.by }),
    ...(now.assignment && { assignment: now.assignment }),
    made,
    picture: await pictureOf(page, read.width, read.height),
    points: points.filter(({ text }) => text !== '').map(({ kind, text, marks }) => ({ kind, text, marks })),
    findings: read.findings
      .filter(({ key }) => !taken.has(key))
      .map(({ text, todo, number, places = [] }) => ({
        text,
        todo,
        number,
        outlines: places.flatMap(({ outline }) => (outline ? [outline] : [])),
      })),
    ...(proposal &&
      after && {
        proposal: {
          picture: await pictureOf(after, proposal.width, proposal.height),
          steps: proposal.steps,
        },
      }),
    ...(closing && { closing }),
  };
}

async function overviewData(request: PagesRequest, stems: readonly string[]): Promise<ClassOverviewData> {
  const { now, works, common, plane, unread, made } = request;
  return {
    schema: 'halflight/class-overview@1',
    title: now.title,
    ...(now.assignment && { assignment: now.assignment }),
    made,
    names: now.names,
    works: await Promise.all(
      works.map(async ({ work, read, small }, index) => {
        const { points = [] } = now.critiques[work.id] ?? {};
        const strong = points.find(({ kind, text }) => kind === 'praise' && text)?.text ?? read.fine[0];
        const first =
          points.find(({ kind, text }) => kind === 'work' && text)?.text ?? read.findings[0]?.todo;
        const scale = Math.min(1, SMALL / Math.max(read.width, read.height));
        return {
          who: work.who,
          ...(work.title && { title: work.title }),
          small: await pictureOf(small, Math.round(read.width * scale), Math.round(read.height * scale)),
          ...(strong && { strong }),
          ...(first && { first }),
          page: `${stems[index]}.html`,
        };
      }),
    ),
    common,
    ...(plane && { plane }),
    // A sentence about a file names it, and its name may name a person.
    unread: now.names === 'shown' ? unread : unread.map((text) => text.replace(/“[^”]*”/gu, 'A file')),
  };
}

/** Long side of the small pictures that the class keeps. */
const SMALL = 320;

async function pictureOf(blob: Blob, width: number, height: number): Promise<PagePicture> {
  return { bytes: new Uint8Array(await blob.arrayBuffer()), mediaType: 'image/jpeg', width, height };
}

import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { stripGraphic } from '../src/graphics/strip.ts';
import {
  A4,
  critiquePage,
  type Item,
  LONG,
  layOut,
  overviewPage,
  type Page,
  type Part,
  reportPage,
  type Sheet,
  sheetSvg,
} from '../src/index.ts';
import { sheetPdf } from '../src/pdf/index.ts';
import { critique, FACE, HOSTILE, overview, picture, report } from './samples.ts';

const PAGES: [string, Page][] = [
  ['own report', reportPage(report(), 'own')],
  ['student’s report', reportPage(report(HOSTILE), 'student')],
  ['client’s report', reportPage(report(), 'client')],
  ['critique', critiquePage(critique())],
  ['overview', overviewPage(overview('initials'))],
];
const MADE = '2026-03-12T20:00:00.000Z';

describe.each(PAGES)('%s', (_, page) => {
  const sheet = layOut(page, A4, FACE);

  test('everything stands on the paper', () => {
    for (const { parts } of sheet.pages)
      for (const item of parts.flatMap(({ items }) => items)) expect(boxOf(item)).toSatisfy(inside(sheet));
  });

  test('as PDF: read by pdf.js, with its text, its title, its language and its structure', async () => {
    const bytes = await sheetPdf(sheet, FACE, MADE);
    const pdf = await getDocument({ data: bytes, verbosity: 0 }).promise;
    expect(pdf.numPages).toBe(sheet.pages.length);
    const { info } = await pdf.getMetadata();
    expect(info).toMatchObject({ Title: page.title, Language: 'en' });
    const first = await pdf.getPage(1);
    const said = (await first.getTextContent()).items.map((it) => ('str' in it ? it.str : '')).join(' ');
    expect(words(said)).toContain(words(page.title));
    const tree = JSON.stringify(await first.getStructTree());
    for (const role of ['H1', 'P', 'Figure']) expect(tree).toContain(`"role":"${role}"`);
    await pdf.destroy();
  });
});

test('as SVG: outlined letters in one long sheet, read by libvips', async () => {
  const sheet = layOut(reportPage(report(), 'own'), LONG, FACE);
  const svg = sheetSvg(sheet, FACE, 0.5);
  expect(svg).not.toContain('<text');
  const { data, info } = await sharp(Buffer.from(svg), { unlimited: true })
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  expect([info.width, info.height]).toEqual([360, Math.round(sheet.height / 2)]);
  // Title in ink on the ground: there is something darker than the ground in its first lines.
  const rows = data.subarray(0, 3 * info.width * 35);
  expect(Math.min(...rows)).toBeLessThan(100);
  expect(data[0]).toBe(0xe8);
});

test('as SVG with real text, everything is escaped', () => {
  const svg = sheetSvg(layOut(reportPage(report(HOSTILE), 'own'), LONG, FACE), null);
  expect(svg).not.toMatch(/<script|<img/);
  expect(svg).toContain('&lt;script&gt;');
});

describe('a process strip', () => {
  test.each([2, 5, 8, 20, 60])(
    'of %i versions has numbers that can be read, and nothing overlaps',
    (count) => {
      const [version] = report().process!.versions;
      const points = Array.from({ length: count }, (_, k) => ({
        version: k + 1,
        effort: 0.4 * k,
        impact: 9 * (1 - 0.7 ** k),
        minutes: null,
      }));
      const versions = points.map((point) => ({ ...version, number: point.version }));
      const { graphic } = stripGraphic(points, versions);
      const pictures = graphic.items.flatMap((item) => (item.kind === 'picture' ? [item] : []));
      expect(pictures).toHaveLength(count);
      // On paper it is set at about its own size: letters of 12 units stay above 11.
      expect((A4.width - 2 * A4.margin) / graphic.width).toBeGreaterThan(0.95);
      for (const [k, one] of pictures.entries()) {
        expect(one.width).toBeGreaterThan(90);
        expect(boxOf(one)).toSatisfy(within(graphic.width, graphic.height));
        for (const other of pictures.slice(k + 1))
          expect(one.x + one.width <= other.x || one.y + one.height <= other.y).toBe(true);
      }
    },
  );
});

describe('pages', () => {
  const { readings, ...rest } = report('Words');
  const measures = (count: number) =>
    Array.from({ length: count }, (_, k) => ({
      ...readings[0].measures[0],
      label: `measure ${k}`,
      value: k,
    }));
  const numbersOn = (count: number): number[] => {
    const data = { ...rest, readings: [{ ...readings[0], measures: measures(count) }] };
    return layOut(reportPage(data, 'own'), A4, FACE).pages.map(
      ({ parts }) => parts.filter((part) => textOf(part).startsWith('measure')).length,
    );
  };
  test.each([4, 30, 60])('keep a table of %i numbers together', (count) => {
    expect(numbersOn(count).filter((found) => found > 0)).toEqual([count]);
  });
  test('tear a table that is longer than a page', () => {
    const found = numbersOn(300).filter((it) => it > 0);
    expect(found.length).toBeGreaterThan(1);
    expect(found.reduce((sum, it) => sum + it, 0)).toBe(300);
  });
  // A tall picture is held by the height that is allowed, a wide one by the width of the paper.
  test.each([
    [300, 400, 6],
    [400, 267, 16],
  ])('of %i × %i are smaller where that saves a page, and only there', (width, height, fits) => {
    const page = (lines: number): Page => ({
      title: 'Net shed',
      under: '',
      blocks: [
        { kind: 'pictures', figures: [{ picture: picture(width, height), alt: 'it' }] },
        { kind: 'heading', text: 'What is as it should be' },
        ...Array.from(
          { length: lines },
          (_, k) => ({ kind: 'text', as: 'text', text: `Line ${k}` }) as const,
        ),
      ],
      closing: [],
    });
    const tallOn = (lines: number): [number, number] => {
      const { pages } = layOut(page(lines), A4, FACE);
      const items = pages.flatMap(({ parts }) => parts.flatMap((part) => part.items));
      return [pages.length, items.flatMap((item) => (item.kind === 'picture' ? [item.height] : []))[0]];
    };
    const [[, large], [one, smaller], [two, again]] = [1, fits, 30].map(tallOn);
    expect(one).toBe(1);
    expect(smaller).toBeLessThan(large);
    expect(two).toBe(2);
    expect(again).toBe(large);
  });
});

test('long words and empty texts find their place', () => {
  for (const text of ['W'.repeat(400), '', '漢字 ✏ Ж ő'])
    expect(layOut(reportPage(report(text), 'own'), A4, FACE).pages.length).toBeGreaterThan(0);
});

const words = (text: string): string => text.replace(/\s+/g, '');

const textOf = ({ items }: Part): string =>
  items.map((item) => (item.kind === 'text' ? item.text : '')).join(' ');

const inside = ({ width, height }: Sheet) => within(width, height);

function within(width: number, height: number) {
  return ([x0, y0, x1, y1]: readonly number[]): boolean =>
    x0 >= -0.01 && y0 >= -0.01 && x1 <= width + 0.01 && y1 <= height + 0.01;
}

/** Left, top, right and bottom; paths are left to their places. */
function boxOf(item: Item): number[] {
  switch (item.kind) {
    case 'rect':
    case 'picture':
      return [item.x, item.y, item.x + item.width, item.y + item.height];
    case 'circle':
      return [item.cx - item.r, item.cy - item.r, item.cx + item.r, item.cy + item.r];
    case 'text': {
      const width = FACE.width(item.text, item.weight, item.size);
      const from =
        item.anchor === 'start' ? item.x : item.anchor === 'end' ? item.x - width : item.x - width / 2;
      return [from, item.y - item.size, from + width, item.y];
    }
    default:
      return [0, 0, 0, 0];
  }
}

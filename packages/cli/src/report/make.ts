import { drawSvg } from '@halflight/files/node';
import {
  A4,
  LONG,
  layOut,
  type Page,
  pageHtml,
  type ReportData,
  type ReportKind,
  reportJson,
  reportPage,
  sheetSvg,
} from '@halflight/pages';
import { sheetPdf } from '@halflight/pages/pdf';
import { typeface } from './fonts.ts';

/** Formats in which a page leaves the house. */
export type PageFormat = 'html' | 'pdf' | 'png';

/** Pixels of a PNG for each unit of its sheet: 1080 in all. */
const DENSITY = 1.5;

const text = (it: string): Uint8Array => new TextEncoder().encode(it);

/** A page as the bytes of a file; `made` is when, ISO 8601. */
export async function makePage(page: Page, format: PageFormat, made: string): Promise<Uint8Array> {
  const face = await typeface();
  if (format === 'html') return text(pageHtml(page, face));
  if (format === 'pdf') return sheetPdf(layOut(page, A4, face), face, made);
  return drawSvg(sheetSvg(layOut(page, LONG, face), face, DENSITY));
}

/** A report as the bytes of a file. JSON tells everything, whatever the kind. */
export async function makeReport(
  data: ReportData,
  kind: ReportKind,
  format: PageFormat | 'json',
): Promise<Uint8Array> {
  if (format === 'json') return text(reportJson(data));
  return makePage(reportPage(data, kind), format, data.made);
}

export { critiquePage } from './critique/critiquePage.ts';
export { escapeMarkup } from './escapeMarkup.ts';
export { pageHtml } from './html/pageHtml.ts';
export { shownName } from './overview/names.ts';
export { overviewPage } from './overview/overviewPage.ts';
export { FONT_FILES } from './page/fontFiles.ts';
export type { Page } from './page/page.ts';
export { ADVICE, CONSENT } from './page/words.ts';
export { palettePage } from './palette/palettePage.ts';
export {
  type GivenAnswer,
  gatherReport,
  mapsIn,
  type PaintedMap,
  paintMap,
  type ReadReading,
  type ReportSources,
} from './report/gather.ts';
export { reportJson } from './report/reportJson.ts';
export { reportPage } from './report/reportPage.ts';
export { intentSentences, stepWords } from './report/words.ts';
export type * from './sheet/items.ts';
export { layOut } from './sheet/layOut.ts';
export { A4, LONG, type Paper } from './sheet/paper.ts';
export { openTypeface, type Typeface } from './sheet/typeface.ts';
export { sheetSvg } from './svg/sheetSvg.ts';
export type * from './types/critique.ts';
export type * from './types/fonts.ts';
export type * from './types/overview.ts';
export type * from './types/picture.ts';
export type * from './types/report.ts';

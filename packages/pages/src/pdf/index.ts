export { sheetPdf } from './sheetPdf.ts';

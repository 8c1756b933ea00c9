export { escapeMarkup } from './escapeMarkup.ts';
export type * from './types/critique.ts';
export type * from './types/fonts.ts';
export type * from './types/overview.ts';
export type * from './types/picture.ts';
export type * from './types/report.ts';

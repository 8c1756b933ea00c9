export { escapeMarkup } from './escapeMarkup.ts';

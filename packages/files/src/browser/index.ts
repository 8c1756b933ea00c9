export { VIPS_FOLDER } from './folder.ts';

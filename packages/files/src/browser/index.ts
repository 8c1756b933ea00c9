export { type BrowserCodecOptions, canOpenCodec, openCodec } from './codec.ts';
export { filePieces } from './filePieces.ts';
export { VIPS_FOLDER } from './folder.ts';
export { openPlainCodec } from './plain.ts';

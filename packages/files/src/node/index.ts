export { type Shown, showView } from '../shown.ts';
export { type NodeCodecOptions, openCodec } from './codec.ts';
export { type DossierFile, openDossierFile, saveDossierFile } from './dossier.ts';
export { encodeGreyPng } from './grey.ts';
export { type ReadOptions, readBytes, readPicture } from './read.ts';
export {
  drawSvg,
  encodeAnimation,
  encodeForPage,
  encodeSheet,
  encodeSmall,
  frameOf,
  type Patch,
  smallForPage,
} from './show.ts';
export { streamAtomically, writeAtomically } from './write.ts';

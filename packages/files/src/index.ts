export { breathe } from './breathe.ts';
export { takenByCamera } from './class/camera.ts';
export { cameToEnd } from './container/cameToEnd.ts';
export { withVersion } from './dossier/grow.ts';
export * from './dossier/work.ts';
export * as workSchema from './dossier/workSchema.ts';
export { openWitness, type Witness } from './handover/witness.ts';
export { FileTrouble, type TroubleKind } from './trouble.ts';
export type {
  Codec,
  Decoded,
  DecodeOptions,
  EncodeOptions,
  Metadata,
  PictureFormat,
  RasterRows,
} from './types.ts';

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

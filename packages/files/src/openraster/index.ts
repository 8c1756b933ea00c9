export { blobSource, bytesSource } from '../dossier/source.ts';
export { type LayerPicture, stackOfPictures } from './fromPictures.ts';
export { type OpenRaster, openOpenRaster } from './open.ts';
export type { StoredLayer, StoredLayerNode } from './stack.ts';
export { type GroupDraft, type LayerDraft, writeOpenRaster } from './write.ts';

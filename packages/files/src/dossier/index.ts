export { eachPiece } from '../pieces.ts';
export { type Hasher, hashOfBlob } from './hash.ts';
export type { Manifest, Thing } from './manifest.ts';
export { type Dossier, type OpenOptions, openDossier } from './open.ts';
export { fileName, openShelfFile, type PackedDossier, type ShelfPart, writeShelfFile } from './shelfFile.ts';
export { blobSource, bytesSource, type Source } from './source.ts';
export { type DossierDraft, type NewThing, writeDossier } from './write.ts';

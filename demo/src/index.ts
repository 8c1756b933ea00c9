export { type Painted, type PaintOptions, paintFerryLanding, paintVersions, SEED } from './ferry/paint.ts';
export { MASKS, type Mask, type Truth } from './ferry/truth.ts';
export { type Tint, VERSIONS, type Version, versionOf } from './ferry/versions.ts';
export { demoFolder, type FolderOptions, generatorHash, pictureName } from './folder.ts';

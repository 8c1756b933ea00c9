export { type ManyOptions, manyWorks } from './class/many.ts';
export { classFolder, type Student, TWELVE } from './class/twelve.ts';
export { type Painted, type PaintOptions, paintFerryLanding, paintVersions, SEED } from './ferry/paint.ts';
export { MASKS, type Mask, type Truth } from './ferry/truth.ts';
export { type Tint, VERSIONS, type Version, versionOf } from './ferry/versions.ts';
export { pictureName } from './files.ts';
export { demoFolder, type FolderOptions, generatorHash } from './folder.ts';

export { largestDifference, whereDifferent } from './compare.ts';
export { type Flattened, flatten } from './flatten.ts';
export { type Gathered, gather } from './gather.ts';
export { mergedNotes } from './merged.ts';
export { countLayers, type LayersHow, type Painter, paint, painterOf } from './paint.ts';
export { thumbnail } from './thumbnail.ts';
export { weigh } from './weigh.ts';
export { type NamedPicture, readPair } from './withAndWithout.ts';

export { type PngSize, readPng } from './read.ts';
export { writePng } from './write.ts';

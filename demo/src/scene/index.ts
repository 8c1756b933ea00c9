export * from './pigments.ts';
export * from './props.ts';
export { cloud2, cloud3, hash, hash01, noise2, noise3, type Random, random } from './random.ts';
export { joinRows, render } from './render.ts';
export type * from './types.ts';
export { matching, planckian, planckXyz } from './whites.ts';
export { luminance } from './world.ts';

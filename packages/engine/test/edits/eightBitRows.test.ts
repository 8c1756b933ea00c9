import { expect, test } from 'vitest';
import type { Area } from '../../src/areas/area.ts';
import { SRGB } from '../../src/colour/rgbSpaces.ts';
import { readyRecipe } from '../../src/edits/compile.ts';
import { editRaster } from '../../src/edits/editRows.ts';
import type { Recipe, Step } from '../../src/edits/step.ts';
import { makeCloseView } from '../../src/views/average.ts';
import type { Raster } from '../../src/views/raster.ts';

const step = (kind: Step['kind'], values: Step['values'], area?: Area): Step => ({
  kind,
  on: true,
  strength: 1,
  values,
  ...(area ? { area } : {}),
});
const recipe = (steps: readonly Step[]): Recipe => ({ schema: 'halflight/recipe@1', steps: [...steps] });
const part = (from: number, to: number, soften: number): Area => ({
  parts: [{ joining: 'add', kind: 'outline', outlines: [[from, 0, to, 0, to, 1, from, 1]] }],
  soften,
});
const everywhere = [step('exposure', { stops: 0.3 }), step('chroma', { gain: 1.4 })];
const inParts = [
  step('exposure', { stops: 0.3 }, part(0, 0.4, 0.02)),
  step('warmth', { mired: 30 }, part(0.3, 1, 0.05)),
];

/** Colours without order: many more of them than the table of so small a picture has places. */
function raster(channels: 3 | 4): Raster {
  const [width, height] = [240, 160];
  const data = new Uint8Array(channels * width * height);
  // Linear congruential generator of Numerical Recipes (2nd edition, 1992).
  let seed = 7;
  for (let i = 0; i < data.length; i++) {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    data[i] = seed >>> 24;
  }
  // One part repeats itself, as paintings do.
  data.copyWithin(data.length / 2, 0, data.length / 4);
  return { width, height, channels, depth: 8, data, space: SRGB };
}

// With more than five areas every pixel is edited by itself, without anything remembered: the plain way.
const idle = Array.from({ length: 6 }, () => step('exposure', { stops: 0 }, part(0, 1, 0)));

test.each([
  ['everywhere', 3, everywhere],
  ['everywhere, with transparency', 4, everywhere],
  ['in areas with soft borders', 3, inParts],
  ['nowhere', 3, []],
] as const)('remembered colours are those of the plain way, dither and all: %s', (_, channels, steps) => {
  const picture = raster(channels);
  const view = makeCloseView(picture);
  const quick = editRaster(readyRecipe(recipe(steps), view), picture, picture);
  const plain = editRaster(readyRecipe(recipe([...steps, ...idle]), view), picture, picture);
  expect(Buffer.compare(quick.data as Uint8Array, plain.data as Uint8Array)).toBe(0);
});

import { expect, test } from 'vitest';
import { SRGB } from '../../src/colour/rgbSpaces.ts';
import { compositeStack } from '../../src/layers/canvas.ts';
import { differenceLayer } from '../../src/layers/difference.ts';
import type { Raster } from '../../src/views/raster.ts';

const flat = (depth: 8 | 16, pixels: number[][]): Raster => ({
  width: pixels.length,
  height: 1,
  channels: pixels[0].length as 3 | 4,
  depth,
  data: depth === 8 ? Uint8Array.from(pixels.flat()) : Uint16Array.from(pixels.flat()),
  space: SRGB,
});

test.each([8, 16] as const)('laid over the first picture it gives the second, %i bit', (depth) => {
  const under = flat(8, [
    [10, 20, 30],
    [40, 50, 60],
    [7, 7, 7],
  ]);
  const k = depth === 8 ? 1 : 257;
  const over = flat(
    depth,
    [
      [10, 20, 30],
      [40, 51, 60],
      [0, 255, 0],
    ].map((one) => one.map((v) => v * k)),
  );
  const layer = differenceLayer(under, over);
  expect([3, 7, 11].map((i) => layer.data[i])).toEqual([0, 255 * k, 255 * k]);
  const common = {
    kind: 'layer',
    visible: true,
    blend: 'normal',
    operator: 'source-over',
    opacity: 1,
  } as const;
  const nodes = [under, layer].map((raster, i) => ({
    ...common,
    path: `${i}`,
    name: `${i}`,
    x: 0,
    y: 0,
    raster,
  }));
  const { data } = compositeStack({ width: 3, height: 1, nodes }, depth, SRGB);
  expect([...data].filter((_, i) => i % 4 !== 3)).toEqual([...over.data]);
});

test.each([
  [
    'another size',
    flat(8, [[1, 2, 3]]),
    flat(8, [
      [1, 2, 3],
      [1, 2, 3],
    ]),
    /one is 1 × 1 and the other 2 × 1/,
  ],
  [
    'a hole that was none',
    flat(8, [[1, 2, 3, 255]]),
    flat(8, [[1, 2, 3, 9]]),
    /transparent where the two differ/,
  ],
])('%s is refused', (_, under, over, words) => {
  expect(() => differenceLayer(under, over)).toThrow(words);
});

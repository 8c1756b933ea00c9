import { readLayers, SRGB } from '@halflight/engine';
import { bytesSource, openOpenRaster, type StoredLayer } from '@halflight/files/openraster';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { ALTERNATIVES, EFFECTS, FORGOTTEN, layeredFile } from '../src/layered.ts';

const [width, height] = [120, 75];

it('the forgotten layers of the layered file are the ones found, and the two gradients the only options', async () => {
  // Strokes enough for a painting: what counts here is what lies over them.
  const painting = Uint8Array.from(
    { length: 3 * width * height },
    (_, i) => 60 + ((i * 37) % 90) + (i % 3) * 20,
  );
  const file = await openOpenRaster(
    bytesSource(await layeredFile(painting, width, height), 'ferry-landing-4.ora'),
  );
  const nodes = await Promise.all(
    file.nodes.map(async (node) => {
      const { data, info } = await sharp(await file.layer(node as StoredLayer))
        .raw()
        .toBuffer({ resolveWithObject: true });
      const channels = info.channels as 3 | 4;
      return {
        ...(node as StoredLayer),
        raster: { width, height, channels, depth: 8 as const, data: new Uint8Array(data), space: SRGB },
      };
    }),
  );
  const { layers, options } = readLayers({ width, height, nodes }, 8, SRGB);
  expect(
    layers
      .filter(({ redundant }) => redundant)
      .map(({ name }) => name)
      .sort(),
  ).toEqual([...FORGOTTEN].sort());
  expect(options).toEqual([[...ALTERNATIVES]]);
  for (const { name, kind } of layers.filter(({ name }) => EFFECTS.some((effect) => effect === name)))
    expect([name, kind]).toEqual([name, 'effect']);
});

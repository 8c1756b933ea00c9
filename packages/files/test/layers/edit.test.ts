import { differenceLayer, EMPTY_RECIPE, type Place, type Step } from '@halflight/engine';
import sharp from 'sharp';
import { afterAll, expect, test } from 'vitest';
import { editLayers } from '../../src/layers/index.ts';
import { openCodec } from '../../src/node/index.ts';
import { bytesSource, openOpenRaster, type StoredLayer } from '../../src/openraster/index.ts';
import { codesOf, painted } from './made.ts';

const codec = await openCodec();
afterAll(() => codec.close());
const decoded = await codec.decode(await painted((x, y) => [60 + 2 * x, 90 + y, 140, 255]), {
  name: 'ferry.png',
});
const step = (kind: Step['kind'], values: Step['values'], on = true): Step => ({
  kind,
  on,
  strength: 1,
  values,
});
const recipe = {
  ...EMPTY_RECIPE,
  steps: [
    step('exposure', { stops: 0.5 }),
    step('chroma', { amount: 20 }, false),
    step('hueTurn', { degrees: 30 }),
  ],
};
const square = new Float32Array([0.1, 0.1, 0.5, 0.1, 0.5, 0.5, 0.1, 0.5]);
const place = { outline: [square], swatches: [{ rgb: [0.2, 0.3, 0.4] }] } as unknown as Place;

test('the picture, one layer for each step that is on, the guide hidden; together they are the edit', async () => {
  const shares: number[] = [];
  const bytes = await editLayers(
    codec,
    { decoded, recipe, places: [place] },
    { onProgress: (share) => shares.push(share) },
  );
  const file = await openOpenRaster(bytesSource(bytes, 'ferry.ora'));
  expect(file.nodes.map(({ name, visible }) => [name, visible])).toEqual([
    ['As painted', true],
    ['Exposure', true],
    ['Turn hues', true],
    ['Guide layer', false],
  ]);
  expect([shares.every((share, i) => share >= (shares[i - 1] ?? 0)), shares.at(-1)]).toEqual([true, 1]);
  // libvips lays the visible layers over each other.
  const pngs = await Promise.all(
    file.nodes.slice(0, 3).map(async (node) => Buffer.from(await file.layer(node as StoredLayer))),
  );
  const over = await sharp(pngs[0])
    .composite([{ input: pngs[1] }, { input: pngs[2] }])
    .png()
    .toBuffer();
  const [together, merged] = [await codesOf(over), await codesOf((await file.merged())!)];
  expect(together).toEqual(merged);
  expect(merged).not.toEqual(await codesOf(pngs[0]));
  // A layer holds only what its step changes.
  const as = await codec.decode(pngs[0], { name: 'a.png' });
  expect(differenceLayer(as.raster, as.raster).data.some((v) => v !== 0)).toBe(false);
});

test('it stops at a signal', async () => {
  const stop = new AbortController();
  const work = editLayers(
    codec,
    { decoded, recipe, places: [] },
    { signal: stop.signal, onProgress: () => stop.abort(new Error('enough')) },
  );
  await expect(work).rejects.toThrow('enough');
});

import sharp from 'sharp';
import { afterAll, expect, test } from 'vitest';
import { gather, weigh } from '../../src/layers/index.ts';
import { openCodec } from '../../src/node/index.ts';
import { stackOfPictures } from '../../src/openraster/index.ts';

const codec = await openCodec();
afterAll(() => codec.close());

const flat = async (r: number, alpha: number): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(
    await sharp({ create: { width: 20, height: 10, channels: 4, background: { r, g: 90, b: 60, alpha } } })
      .png()
      .toBuffer(),
  );
const file = stackOfPictures('three', [
  { name: 'ground', bytes: await flat(40, 1) },
  { name: 'fog', bytes: await flat(200, 0.4) },
  { name: 'idea', bytes: await flat(250, 1), visible: false },
]);

test('layers come as they are read, hidden ones too', async () => {
  const seen: string[] = [];
  const gathered = await gather(file, { codec, limitMegapixels: 100 }, ({ path, raster }) =>
    seen.push(`${path} ${raster.width}`),
  );
  expect(seen).toEqual(['ground 20', 'fog 20', 'idea 20']);
  // 0.4 is 102 of 255; normal source over, W3C Compositing Level 1, section 5: 0.4 · 200 + 0.6 · 40.
  expect([...(await gathered.composite()).data.slice(0, 4)]).toEqual([104, 90, 60, 255]);
  const { layers } = await weigh(gathered);
  expect(layers.map(({ redundant }) => redundant)).toEqual([false, false, true]);
});

test('it stops at a signal', async () => {
  const stop = new AbortController();
  const seen: string[] = [];
  const work = gather(file, { codec, limitMegapixels: 100, signal: stop.signal }, ({ path }) => {
    seen.push(path);
    stop.abort(new Error('enough'));
  });
  await expect(work).rejects.toThrow('enough');
  expect(seen).toEqual(['ground']);
});

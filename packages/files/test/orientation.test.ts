import { afterAll, describe, expect, test } from 'vitest';
import { openCodec } from '../src/node/codec.ts';
import { makeFile } from './made/vips.ts';

const codecs = { native: await openCodec(), wasm: await openCodec({ fast: false }) };
afterAll(() => {
  for (const codec of Object.values(codecs)) codec.close();
});

const W = 4;
const H = 3;
/** Red tells the column, green the row, so that every pixel knows where it came from. */
const stored = Uint8Array.from({ length: W * H * 3 }, (_, i) => {
  const p = Math.floor(i / 3);
  return [40 * (p % W), 60 * Math.floor(p / W), 7][i % 3];
});

/** Stored column and row of the upright place (x, y): Exif (CIPA DC-008) section 4.6.4, tag 274. */
const FROM: Record<number, (x: number, y: number) => [number, number]> = {
  1: (x, y) => [x, y],
  2: (x, y) => [W - 1 - x, y],
  3: (x, y) => [W - 1 - x, H - 1 - y],
  4: (x, y) => [x, H - 1 - y],
  5: (x, y) => [y, x],
  6: (x, y) => [y, H - 1 - x],
  7: (x, y) => [W - 1 - y, H - 1 - x],
  8: (x, y) => [W - 1 - y, x],
};

const FILES = [
  ['.png', {}],
  ['.tif', {}],
  ['.webp', { lossless: true }],
] as const;

for (const [build, codec] of Object.entries(codecs))
  describe(`orientation, ${build}`, () => {
    for (const [suffix, options] of FILES)
      test.each([1, 2, 3, 4, 5, 6, 7, 8])(`${suffix} %i`, async (orientation) => {
        const plan = { width: W, height: H, bands: 3, data: stored, interpretation: 'srgb', orientation };
        const file = await makeFile(plan, suffix, options);
        const { raster, facts } = await codec.decode(file, { name: `a${suffix}` });
        const turned = orientation > 4;
        expect(raster).toMatchObject({ width: turned ? H : W, height: turned ? W : H });
        expect(facts).toMatchObject({ width: raster.width, height: raster.height });
        for (let y = 0; y < raster.height; y++)
          for (let x = 0; x < raster.width; x++) {
            const [column, row] = FROM[orientation](x, y);
            const at = 3 * (y * raster.width + x);
            expect([raster.data[at], raster.data[at + 1]]).toEqual([40 * column, 60 * row]);
          }
      });
  });

test('written again, the metadata says upright', async () => {
  const plan = { width: W, height: H, bands: 3, data: stored, interpretation: 'srgb', orientation: 6 };
  for (const codec of Object.values(codecs)) {
    const { raster, metadata } = await codec.decode(await makeFile(plan, '.png'), { name: 'a.png' });
    const again = await codec.encode(raster, { format: 'png', metadata });
    const back = await codec.decode(again, { name: 'b.png' });
    expect(back.raster.data).toEqual(raster.data);
    expect(back.raster.width).toBe(H);
  }
});

import { afterAll, describe, expect, test } from 'vitest';
import { openCodec } from '../src/node/codec.ts';
import { decodeFast } from '../src/node/sharp.ts';
import { pictureFormat } from '../src/sniff.ts';
import { digest } from './digest.ts';
import { FIXTURES, SOFT } from './made/fixtures.ts';

const native = await openCodec();
const wasm = await openCodec({ fast: false });
afterAll(() => {
  native.close();
  wasm.close();
});

describe('every kind of picture, by both builds of the library', () => {
  test.each(FIXTURES)('$name', async ({ name, bytes, channels, depth, codes }) => {
    const file = await bytes();
    const decoded = await wasm.decode(file, { name });
    const { raster } = decoded;
    expect(raster).toMatchObject({ channels, depth });
    expect(raster.data).toBeInstanceOf(depth === 16 ? Uint16Array : Uint8Array);
    if (codes) expect(Array.from(raster.data)).toEqual(codes);
    expect(digest(await native.decode(file, { name }))).toEqual(digest(decoded));
    expect(await decodeFast(file, pictureFormat(file, name), { name })).not.toBeNull(); // or we compare wasm with itself
  });
});

describe('lossy pictures come back near to what went in', () => {
  test.each(
    FIXTURES.filter(({ codes, channels, name }) => !codes && channels === 3 && !/grey|gif/.test(name)),
  )('$name', async ({ name, bytes }) => {
    const { data } = (await native.decode(await bytes(), { name })).raster;
    const difference = Array.from(data).reduce((sum, v, i) => sum + Math.abs(v - SOFT[i]), 0) / SOFT.length;
    expect(difference).toBeLessThan(2.55); // one per cent; a wrong matrix or order of channels gives tens
  });
});

test.each(FIXTURES.filter(({ depth, name }) => depth === 16 && /png/.test(name)).slice(0, 2))(
  'rows that are seen while $name is read are those that would be kept',
  async ({ name, bytes }) => {
    const file = await bytes();
    const { raster } = await wasm.decode(file, { name });
    const rows: number[] = [];
    let next = 0;
    const seen = await wasm.decode(file, {
      name,
      onRows(data, y, count) {
        expect(y).toBe(next);
        next += count;
        rows.push(...data);
      },
    });
    expect(rows).toEqual(Array.from(raster.data));
    expect([seen.raster.width, seen.raster.height, seen.raster.depth, next]).toEqual([
      raster.width,
      raster.height,
      raster.depth,
      raster.height,
    ]);
  },
);

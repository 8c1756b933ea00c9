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

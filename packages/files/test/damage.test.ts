import { crc32 } from 'node:zlib';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { openCodec } from '../src/node/codec.ts';
import { FileTrouble } from '../src/trouble.ts';
import type { Codec, Decoded } from '../src/types.ts';
import { FIXTURES } from './made/fixtures.ts';
import { makePng, RGB, uint32 } from './made/png.ts';
import { makeTiff } from './made/tiff.ts';
import { makeFile, vips } from './made/vips.ts';

const codecs = { native: await openCodec(), wasm: await openCodec({ fast: false }) };
const both = Object.entries(codecs);
afterAll(() => {
  for (const codec of Object.values(codecs)) codec.close();
});

/** A picture, or trouble in words; anything else fails the test. */
async function tryDecode(codec: Codec, bytes: Uint8Array, name: string): Promise<Decoded | FileTrouble> {
  try {
    return await codec.decode(bytes, { name });
  } catch (error) {
    if (!(error instanceof FileTrouble)) throw error;
    expect(error.sentence).toMatch(/^“.+”.*\.$/s);
    expect(error.sentence + error.todo).not.toMatch(/vips|libpng|\bat \/|undefined|null|NaN/i);
    return error;
  }
}

const files = await Promise.all(FIXTURES.map(async ({ name, bytes }) => [name, await bytes()] as const));
// Large enough that a cut is in the middle of the pixels.
const noise = Uint8Array.from({ length: 200 * 160 * 3 }, (_, i) => (i * 2654435761) >>> 24);
const plan = { width: 200, height: 160, bands: 3, data: noise, interpretation: 'srgb' };
const large = [
  ['large.png', await makeFile(plan, '.png')],
  ['large.jpg', await makeFile(plan, '.jpg', { Q: 90 })],
  ['large.webp', await makeFile(plan, '.webp', { Q: 80 })],
  ['large.tif', await makeFile(plan, '.tif', { compression: 'lzw' })],
] as const;

describe('cut off', () => {
  for (const [build, codec] of both)
    test.each(large)(`%s is never read by half, ${build}`, async (name, bytes) => {
      for (const share of [0.02, 0.1, 0.3, 0.5, 0.8, 0.95]) {
        const found = await tryDecode(codec, bytes.subarray(0, Math.floor(share * bytes.length)), name);
        expect(found).toBeInstanceOf(FileTrouble);
        expect(found).toMatchObject({ kind: 'damaged' });
      }
    });

  test('any file at any byte: a whole picture or trouble', async () => {
    const cut = fc.tuple(fc.constantFrom(...files), fc.double({ min: 0, max: 1, noNaN: true }));
    await fc.assert(
      fc.asyncProperty(cut, async ([[name, bytes], share]) => {
        const found = await tryDecode(
          codecs.native,
          bytes.subarray(0, Math.floor(share * bytes.length)),
          name,
        );
        if (found instanceof FileTrouble) return;
        const { width, height, channels, data } = found.raster;
        expect(data.length).toBe(width * height * channels);
      }),
      { numRuns: 150, seed: 4 },
    );
  });
});

test('bytes changed anywhere: a picture or trouble', async () => {
  const hit = fc.tuple(fc.constantFrom(...files), fc.nat(), fc.integer({ min: 0, max: 255 }));
  await fc.assert(
    fc.asyncProperty(hit, async ([[name, bytes], at, value]) => {
      const broken = bytes.slice();
      broken[at % broken.length] = value;
      await tryDecode(codecs.native, broken, name);
    }),
    { numRuns: 150, seed: 5 },
  );
});

describe('bad input of the issue', () => {
  for (const [build, codec] of both) {
    test.each([
      ['zero bytes', new Uint8Array(0), 'empty', /0 bytes/],
      ['a text file', new TextEncoder().encode('Tide tables for the landing\n'), 'not-a-picture', /text/],
    ] as const)(`%s, ${build}`, async (_, bytes, kind, sentence) => {
      const found = await tryDecode(codec, bytes, 'ferry.png');
      expect(found).toMatchObject({ kind, sentence: expect.stringMatching(sentence) });
    });

    test(`1 × 1, ${build}`, async () => {
      const { raster } = (await tryDecode(
        codec,
        makePng({ width: 1, height: 1, bits: 8, type: RGB, samples: [1, 2, 3] }),
        'dot.png',
      )) as Decoded;
      expect(Array.from(raster.data)).toEqual([1, 2, 3]);
    });

    test(`a wrong ending is read and said, ${build}`, async () => {
      const file = await makeFile(plan, '.jpg');
      const { format, notes } = (await tryDecode(codec, file, 'ferry.png')) as Decoded;
      expect(format).toBe('jpeg');
      expect(notes.join()).toMatch(/JPEG picture although its name ends in “.png”/);
    });

    test(`animated: first frame, and said, ${build}`, async () => {
      const { Image } = await vips();
      const frames = Uint8Array.from({ length: 8 * 8 * 3 * 2 }, (_, i) => (i < 192 ? 250 : 10));
      const strip = Image.newFromMemory(frames, 8, 16, 3, (await vips()).BandFormat.uchar).copy({
        interpretation: 'srgb',
      });
      for (const [suffix, options] of [
        ['.webp', { lossless: true }],
        ['.gif', {}],
      ] as const) {
        const file = strip.writeToBuffer(suffix, { ...options, page_height: 8 });
        const { raster, notes } = (await tryDecode(codec, file, `a${suffix}`)) as Decoded;
        expect(raster).toMatchObject({ width: 8, height: 8 });
        expect(Array.from(raster.data.subarray(0, 3))).toEqual([250, 250, 250]);
        expect(notes.join()).toMatch(/animated; only its first frame/);
      }
      const moving = makePng({
        width: 1,
        height: 1,
        bits: 8,
        type: RGB,
        samples: [9, 9, 9],
        chunks: [['acTL', uint32(2, 0)]],
      });
      expect(((await tryDecode(codec, moving, 'a.png')) as Decoded).notes.join()).toMatch(/animated/);
    });

    test(`pixels that the bytes can’t hold are refused before they are read, ${build}`, async () => {
      // 9 000 × 9 000 in a header; 15 bytes of pixels.
      const hollow = Buffer.from(makePng({ width: 1, height: 1, bits: 8, type: RGB, samples: [1, 2, 3] }));
      hollow.writeUInt32BE(9000, 16);
      hollow.writeUInt32BE(9000, 20);
      hollow.writeUInt32BE(crc32(hollow.subarray(12, 29)), 29);
      const found = await tryDecode(codec, hollow, 'hollow.png');
      const sentence = expect.stringMatching(/its \d+ bytes can’t hold the 9000 × 9000 pixels/);
      expect(found).toMatchObject({ kind: 'damaged', sentence });
    });

    test(`a picture of one colour, which deflates best, is read, ${build}`, async () => {
      const side = 2000;
      const file = await makeFile(
        {
          width: side,
          height: side,
          bands: 3,
          data: new Uint8Array(3 * side * side),
          interpretation: 'srgb',
        },
        '.png',
        { compression: 9 },
      );
      expect(file.length).toBeLessThan((3 * side * side) / 900);
      expect(((await tryDecode(codec, file, 'plain.png')) as Decoded).raster.width).toBe(side);
    });

    test(`too many pixels are refused before they are read, ${build}`, async () => {
      // 65 000 × 65 000 in a header; 12 bytes of pixels.
      const bomb = Buffer.from(makePng({ width: 1, height: 1, bits: 8, type: RGB, samples: [1, 2, 3] }));
      bomb.writeUInt32BE(65000, 16);
      bomb.writeUInt32BE(65000, 20);
      bomb.writeUInt32BE(crc32(bomb.subarray(12, 29)), 29);
      const found = await tryDecode(codec, bomb, 'bomb.png');
      expect(found).toMatchObject({
        kind: 'too-large',
        sentence: expect.stringMatching(/4225 megapixels.*limit is 100/),
      });
      const limited = codec.decode(large[0][1], { name: 'a.png', limitMegapixels: 0.01 });
      await expect(limited).rejects.toMatchObject({ kind: 'too-large' });
    });

    test(`a camera's raw file is not judged by its preview, ${build}`, async () => {
      const samples = Array.from({ length: 12 }, (_, i) => i);
      const plain = (await tryDecode(codec, makeTiff(2, 2, samples, []), 'a.tif')) as Decoded;
      expect(Array.from(plain.raster.data)).toEqual(samples);
      // A first directory that calls itself a reduced copy: TIFF 6.0, tag 254, bit 0.
      const file = makeTiff(2, 2, samples, [[254, 1]]);
      const found = await tryDecode(codec, file, 'a.tif');
      expect(found).toMatchObject({ kind: 'format', sentence: expect.stringMatching(/camera raw/) });
    });
  }

  test('samples that no painting has', async () => {
    const floats = { width: 1, height: 1, bands: 1, data: Float32Array.of(0.5), interpretation: 'b-w' };
    expect(await tryDecode(codecs.native, await makeFile(floats, '.tif'), 'a.tif')).toMatchObject({
      kind: 'format',
    });
  });
});

test('a cancelled decode ends with the reason of its signal', async () => {
  for (const [, codec] of both) {
    const controller = new AbortController();
    const decoding = codec.decode(large[0][1], { name: 'a.png', signal: controller.signal });
    controller.abort(new Error('closed'));
    await expect(decoding).rejects.toThrow('closed');
  }
});

test('progress rises to 1', async () => {
  for (const [, codec] of both) {
    const shares: number[] = [];
    await codec.decode(large[3][1], { name: 'a.tif', onProgress: (share) => shares.push(share) });
    expect(shares.at(-1)).toBe(1);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
  }
});

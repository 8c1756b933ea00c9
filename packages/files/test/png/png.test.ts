import { DISPLAY_P3, SRGB } from '@halflight/engine';
import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { readPng, writePng } from '../../src/png/index.ts';
import type { RasterRows } from '../../src/types.ts';
import { seeded } from '../made/random.ts';

/** Smooth and noisy in turns, so that every filter is chosen somewhere. */
function picture(
  width: number,
  height: number,
  channels: 3 | 4,
  depth: 8 | 16,
): RasterRows & { data: Uint8Array | Uint16Array } {
  const next = seeded(width * 31 + height + depth + channels);
  const max = 2 ** depth - 1;
  const data = new (depth === 8 ? Uint8Array : Uint16Array)(width * height * channels);
  for (let i = 0; i < data.length; i++) {
    const y = Math.floor(i / (width * channels));
    data[i] =
      y % 3 === 0 ? next() * max : y % 3 === 1 ? ((i % (width * channels)) * 37) & max : (y * 411) & max;
  }
  return {
    width,
    height,
    channels,
    depth,
    space: SRGB,
    data,
    rows: (y, count) => data.subarray(y * width * channels, (y + count) * width * channels) as Uint8Array,
  };
}
const bytesOf = async (file: Blob): Promise<Buffer> => Buffer.from(await file.arrayBuffer());

describe.each([
  [8, 3],
  [8, 4],
  [16, 3],
  [16, 4],
] as const)('a PNG of %i bits and %i channels', (depth, channels) => {
  test('holds what was given, as sharp (libvips, libpng) reads it, and as it is read back here', async () => {
    const made = picture(61, 137, channels, depth);
    const file = await writePng(made, {});
    const { data, info } = await sharp(await bytesOf(file), { ignoreIcc: true })
      .toColourspace(depth === 8 ? 'srgb' : 'rgb16')
      .raw({ depth: depth === 8 ? 'uchar' : 'ushort' })
      .toBuffer({ resolveWithObject: true });
    expect([info.width, info.height, info.channels]).toEqual([61, 137, channels]);
    const codes = depth === 8 ? data : new Uint16Array(data.buffer, data.byteOffset, data.length / 2);
    expect(Array.from(codes)).toEqual(Array.from(made.data));
    const back: number[] = [];
    const size = await readPng(file, (rows, y) => {
      expect(back).toHaveLength(y * 61 * channels);
      back.push(...rows);
    });
    expect(size).toEqual({ width: 61, height: 137, channels, depth });
    expect(back).toEqual(Array.from(made.data));
  });
});

test('any size comes back as it was', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 70 }),
      fc.constantFrom(3 as const, 4 as const),
      fc.constantFrom(8 as const, 16 as const),
      async (width, height, channels, depth) => {
        const made = picture(width, height, channels, depth);
        const back: number[] = [];
        await readPng(await writePng(made, { profile: 'none' }), (rows) => back.push(...rows));
        expect(back).toEqual(Array.from(made.data));
      },
    ),
    { numRuns: 25 },
  );
});

test('profile, EXIF turned upright and XMP travel', async () => {
  const exif = await sharp({ create: { width: 2, height: 2, channels: 3, background: 'red' } })
    .withExif({ IFD0: { Artist: 'M. Example' } })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer()
    .then(async (jpeg) => (await sharp(jpeg).metadata()).exif);
  const xmp = new TextEncoder().encode('<x:xmpmeta xmlns:x="adobe:ns:meta/"/>');
  const file = await writePng(
    { ...picture(4, 4, 3, 16), space: DISPLAY_P3 },
    { metadata: { exif: new Uint8Array(exif!), xmp } },
  );
  const read = await sharp(await bytesOf(file)).metadata();
  expect(read.icc?.length).toBeGreaterThan(100);
  expect(read.orientation ?? 1).toBe(1);
  expect(read.exif).toBeDefined();
  expect(read.xmp?.toString()).toContain('x:xmpmeta');
});

test('stops between rows by the signal, with its reason', async () => {
  const stop = new AbortController();
  const made = picture(50, 400, 3, 16);
  const rows: RasterRows['rows'] = (y, count) => {
    if (y > 100) stop.abort(new Error('stopped'));
    return made.rows(y, count);
  };
  await expect(writePng({ ...made, rows }, { signal: stop.signal })).rejects.toThrow('stopped');
});

test('a flipped bit is noticed, wherever it is', async () => {
  const bytes = await bytesOf(await writePng(picture(30, 30, 3, 8), {}));
  for (const at of [3, 20, 60, Math.floor(bytes.length / 2), bytes.length - 6]) {
    const broken = Uint8Array.from(bytes);
    broken[at] ^= 4;
    await expect(readPng(new Blob([broken]), () => {})).rejects.toThrow();
  }
  await expect(
    readPng(new Blob([Uint8Array.from(bytes.subarray(0, bytes.length - 40))]), () => {}),
  ).rejects.toThrow('can’t be read back');
});

import { A98_RGB, DELIVERY_SPACES, DISPLAY_P3, type Raster, SRGB } from '@halflight/engine';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { writeProfile } from '../src/icc/write.ts';
import { openCodec } from '../src/node/codec.ts';
import type { EncodeOptions, RasterRows } from '../src/types.ts';
import { seeded } from './made/random.ts';

const codec = await openCodec();
afterAll(() => codec.close());

function noise(channels: 3 | 4, depth: 8 | 16, space = SRGB, width = 300, height = 210): Raster {
  const next = seeded(channels + depth);
  const length = width * height * channels;
  const fill = () => Math.floor(next() * 2 ** depth);
  const data = depth === 16 ? Uint16Array.from({ length }, fill) : Uint8Array.from({ length }, fill);
  return { width, height, channels, depth, data, space };
}

const back = async (bytes: Uint8Array, format: string) => codec.decode(bytes, { name: `x.${format}` });

describe('pixels come back bit for bit, whatever profile is attached', () => {
  const profiles = ['srgb', 'display-p3', 'a98-rgb', 'none', undefined] as const;
  for (const format of ['png', 'tiff'] as const)
    for (const depth of [8, 16] as const)
      for (const channels of [3, 4] as const)
        test.each(profiles)(`${format} ${depth} bit, ${channels} channels, profile %s`, async (profile) => {
          const raster = noise(channels, depth, DISPLAY_P3, 61, 37);
          const decoded = await back(
            await codec.encode(raster, { format, ...(profile ? { profile } : {}) }),
            format,
          );
          expect(decoded.raster.data).toEqual(raster.data);
          expect(decoded.raster).toMatchObject({ channels, depth });
          const space = profile === 'none' ? SRGB : profile ? DELIVERY_SPACES[profile] : DISPLAY_P3;
          expect(decoded.raster.space).toEqual(space);
          expect(decoded.facts.tagged).toBe(profile !== 'none');
          expect(decoded.profile).toEqual(profile === 'none' ? null : writeProfile(space));
        });

  test('WebP without loss', async () => {
    const raster = noise(4, 8, A98_RGB, 61, 37);
    // Colours under full transparency are nobody's business: the format may drop them.
    for (let i = 3; i < raster.data.length; i += 4) raster.data[i] ||= 1;
    const decoded = await back(await codec.encode(raster, { format: 'webp', quality: 'lossless' }), 'webp');
    expect(decoded.raster.data).toEqual(raster.data);
    expect(decoded.raster.space).toEqual(A98_RGB);
  });

  test.each([8, 10, 12] as const)('AVIF without loss at %i bit', async (depth) => {
    const raster = noise(3, depth === 8 ? 8 : 16, DISPLAY_P3, 64, 64);
    const file = await codec.encode(raster, { format: 'avif', depth, quality: 'lossless' });
    const decoded = await back(file, 'avif');
    const top = 2 ** depth - 1;
    const full = 2 ** raster.depth - 1;
    decoded.raster.data.forEach((v, i) => {
      // The nearest step of the file's depth, spread to the whole range.
      const step = Math.round((raster.data[i] * top) / full);
      expect(Math.abs(v - (step * full) / top)).toBeLessThan(0.51); // rounded in single precision
    });
  });
});

describe('a file is read by another decoder as meant', () => {
  test('PNG 16 bit, alpha straight', async () => {
    const raster = noise(4, 16);
    const png = sharp(await codec.encode(raster, { format: 'png' }), { ignoreIcc: true });
    const data = await png.toColourspace('rgb16').raw({ depth: 'ushort' }).toBuffer();
    expect(new Uint16Array(data.buffer, data.byteOffset, data.length / 2)).toEqual(raster.data);
  });
  test('its profile is seen', async () => {
    const { icc } = await sharp(
      await codec.encode(noise(3, 8), { format: 'jpeg', profile: 'a98-rgb' }),
    ).metadata();
    expect(new Uint8Array(icc as Buffer)).toEqual(writeProfile(A98_RGB));
  });
});

describe('depth', () => {
  test('16 to 8 bit rounds to nearest, 8 to 16 fills the range', async () => {
    const deep = noise(3, 16);
    const shallow = await back(await codec.encode(deep, { format: 'png', depth: 8 }), 'png');
    expect(Array.from(shallow.raster.data)).toEqual(Array.from(deep.data, (v) => Math.round(v / 257)));
    const flat = noise(3, 8);
    const spread = await back(await codec.encode(flat, { format: 'tiff', depth: 16 }), 'tiff');
    expect(Array.from(spread.raster.data)).toEqual(Array.from(flat.data, (v) => v * 257));
  });
  test.each([
    ['jpeg', 16],
    ['webp', 16],
    ['png', 10],
    ['avif', 16],
  ] as const)('%s can’t hold %i bits, and it is said', async (format, depth) => {
    await expect(codec.encode(noise(3, 16), { format, depth })).rejects.toMatchObject({ kind: 'option' });
  });
  test('a 16-bit picture as JPEG becomes 8 bit by itself', async () => {
    expect((await back(await codec.encode(noise(3, 16), { format: 'jpeg' }), 'jpeg')).raster.depth).toBe(8);
  });
});

test('rows that are made on the way give the same file as the whole picture', async () => {
  const raster = noise(3, 16, SRGB, 4000, 700);
  const asked: number[] = [];
  const rows: RasterRows = {
    ...raster,
    rows: async (y, count) => {
      asked.push(y);
      return raster.data.slice(y * 12000, (y + count) * 12000) as Uint16Array;
    },
  };
  const options: EncodeOptions = { format: 'png' };
  expect(Buffer.compare(await codec.encode(rows, options), await codec.encode(raster, options))).toBe(0);
  expect(asked.length).toBeGreaterThan(1);
  expect(asked).toEqual(asked.toSorted((a, b) => a - b));
});

test('what is transparent becomes the background where the format has no transparency', async () => {
  const data = new Uint8Array(16 * 16 * 4).map((_, i) => [200, 20, 20, 0][i % 4]);
  const raster: Raster = { width: 16, height: 16, channels: 4, depth: 8, data, space: SRGB };
  const first = async (options: Partial<EncodeOptions>) =>
    Array.from(
      (await back(await codec.encode(raster, { format: 'jpeg', ...options }), 'jpeg')).raster.data.slice(
        0,
        3,
      ),
    );
  expect(await first({})).toEqual([255, 255, 255]);
  const grey = await first({ background: [0.5, 0.5, 0.5] });
  for (const v of grey) expect(Math.abs(v - 128)).toBeLessThanOrEqual(1);
});

const signed = await sharp(Uint8Array.of(1, 2, 3), { raw: { width: 1, height: 1, channels: 3 } })
  .withExif({ IFD0: { Artist: 'M. Ebb' } })
  .jpeg()
  .toBuffer();

test('metadata is written along, and only when asked', async () => {
  const source = await back(signed, 'jpeg');
  const xmp = new TextEncoder().encode('<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"/>');
  for (const format of ['png', 'jpeg', 'webp', 'tiff'] as const) {
    const file = await codec.encode(noise(3, 8), { format, metadata: { ...source.metadata, xmp } });
    const { metadata } = await back(file, format);
    const exif = new TextDecoder('latin1').decode(metadata.exif ?? undefined);
    if (format !== 'tiff') expect(exif).toContain('M. Ebb');
    expect(metadata.xmp).toEqual(xmp);
    const bare = await back(await codec.encode(noise(3, 8), { format }), format);
    expect(bare.metadata).toEqual({ exif: null, xmp: null, iptc: null });
  }
});

test('the size in print is stored', async () => {
  const { metadata } = await back(signed, 'jpeg');
  for (const format of ['png', 'jpeg', 'tiff'] as const)
    for (const along of [{}, metadata]) {
      const file = await codec.encode(noise(3, 8), { format, pixelsPerInch: 300, metadata: along });
      expect((await sharp(file).metadata()).density).toBe(300);
    }
});

test('sides beyond what a format holds are told', async () => {
  const wide: Raster = {
    width: 20000,
    height: 1,
    channels: 3,
    depth: 8,
    data: new Uint8Array(60000),
    space: SRGB,
  };
  await expect(codec.encode(wide, { format: 'webp' })).rejects.toMatchObject({
    sentence: expect.stringMatching(/16383/),
  });
});

test('a raster whose data does not fit is the caller’s fault', async () => {
  const wrong: Raster = { ...noise(3, 8), width: 7 };
  await expect(codec.encode(wrong, { format: 'png' })).rejects.toBeInstanceOf(RangeError);
});

test('progress rises to 1', async () => {
  const shares: number[] = [];
  await codec.encode(noise(3, 8, SRGB, 2000, 1500), {
    format: 'png',
    onProgress: (share) => shares.push(share),
  });
  expect(shares.at(-1)).toBe(1);
  expect(shares).toEqual(shares.toSorted((a, b) => a - b));
});

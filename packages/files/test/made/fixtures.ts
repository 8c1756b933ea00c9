import { DISPLAY_P3 } from '@halflight/engine';
import sharp, { type Sharp } from 'sharp';
import { writeProfile } from '../../src/icc/write.ts';
import { GREY, GREY_ALPHA, iccChunk, makePng, PALETTE, RGB, RGBA, uint32 } from './png.ts';
import { seeded } from './random.ts';
import { makeFile } from './vips.ts';

export interface Fixture {
  readonly name: string;
  readonly bytes: () => Promise<Uint8Array>;
  readonly channels: 3 | 4;
  readonly depth: 8 | 16;
  /** Code values a decoder must give; null for lossy formats, where the decoders are compared with each other. */
  readonly codes: readonly number[] | null;
}

const SIZE = { width: 5, height: 3 };
const COUNT = SIZE.width * SIZE.height;

function random(count: number, top: number, seed = 1): number[] {
  const next = seeded(seed);
  return Array.from({ length: count }, () => Math.floor(next() * (top + 1)));
}

const png =
  (bits: 1 | 2 | 4 | 8 | 16, type: number, samples: number[], chunks?: [string, Uint8Array][]) => async () =>
    makePng({ ...SIZE, bits, type, samples, ...(chunks ? { chunks } : {}) });

/** Grey samples as three channels, stretched from `bits` to the depth of the result. */
const spread = (samples: number[], bits: number) =>
  samples.flatMap((v) => Array(3).fill(bits < 8 ? (v * 255) / (2 ** bits - 1) : v));

const rgb8 = random(3 * COUNT, 255);
const rgba8 = random(4 * COUNT, 255, 2);
const rgb16 = random(3 * COUNT, 65535, 3);
const rgba16 = random(4 * COUNT, 65535, 4);
const grey8 = random(COUNT, 255, 5);
const grey16 = random(COUNT, 65535, 6);
const greyAlpha8 = random(2 * COUNT, 255, 7);
const greyAlpha16 = random(2 * COUNT, 65535, 8);
const palette = random(12, 255, 9);
const indices = random(COUNT, 3, 10);
const pairs = (samples: number[]) => samples.flatMap((v, i) => (i % 2 ? [] : [v, v, v, samples[i + 1]]));

const plan = (bands: number, data: number[], interpretation: string, deep = false) => ({
  ...SIZE,
  bands,
  data: deep ? Uint16Array.from(data) : Uint8Array.from(data),
  interpretation,
});

/** A picture of soft gradients, for lossy formats: noise would make every codec look bad. */
const soft = Uint8Array.from({ length: 48 * 32 * 3 }, (_, i) => {
  const [x, y, c] = [Math.floor(i / 3) % 48, Math.floor(i / 144), i % 3];
  return 40 + 3 * x + (c + 1) * y;
});
const lossy = (write: (image: Sharp) => Sharp) => async () =>
  new Uint8Array(await write(sharp(soft, { raw: { width: 48, height: 32, channels: 3 } })).toBuffer());

const exact = (
  name: string,
  bytes: Fixture['bytes'],
  codes: number[],
  channels: 3 | 4 = 3,
  depth: 8 | 16 = 8,
) => ({
  name,
  bytes,
  channels,
  depth,
  codes,
});

/** One of every kind of picture that the issue names. */
export const FIXTURES: readonly Fixture[] = [
  ...([1, 2, 4] as const).map((bits) => {
    const samples = random(COUNT, 2 ** bits - 1, 11 + bits);
    return exact(`grey-${bits}.png`, png(bits, GREY, samples), spread(samples, bits));
  }),
  exact('grey-8.png', png(8, GREY, grey8), spread(grey8, 8)),
  exact('grey-16.png', png(16, GREY, grey16), spread(grey16, 16), 3, 16),
  exact('grey-alpha-8.png', png(8, GREY_ALPHA, greyAlpha8), pairs(greyAlpha8), 4),
  exact('grey-alpha-16.png', png(16, GREY_ALPHA, greyAlpha16), pairs(greyAlpha16), 4, 16),
  exact('rgb-8.png', png(8, RGB, rgb8), rgb8),
  exact('rgb-16.png', png(16, RGB, rgb16), rgb16, 3, 16),
  exact('rgba-8.png', png(8, RGBA, rgba8), rgba8, 4),
  exact('rgba-16.png', png(16, RGBA, rgba16), rgba16, 4, 16),
  ...([2, 4, 8] as const).map((bits) =>
    exact(
      `palette-${bits}.png`,
      png(bits, PALETTE, indices, [['PLTE', Uint8Array.from(palette)]]),
      indices.flatMap((i) => palette.slice(3 * i, 3 * i + 3)),
    ),
  ),
  exact(
    'palette-alpha.png',
    png(8, PALETTE, indices, [
      ['PLTE', Uint8Array.from(palette)],
      ['tRNS', Uint8Array.of(255, 0, 128)],
    ]),
    indices.flatMap((i) => [...palette.slice(3 * i, 3 * i + 3), [255, 0, 128, 255][i]]),
    4,
  ),
  exact('display-p3.png', png(8, RGB, rgb8, [iccChunk(writeProfile(DISPLAY_P3))]), rgb8),
  exact('gamma.png', png(8, RGB, rgb8, [['gAMA', uint32(100000)]]), rgb8),
  exact('rgb-8.tif', () => makeFile(plan(3, rgb8, 'srgb'), '.tif'), rgb8),
  exact('rgba-8.tif', () => makeFile(plan(4, rgba8, 'srgb'), '.tif'), rgba8, 4),
  exact(
    'lzw-8.tif',
    () => makeFile(plan(3, rgb8, 'srgb'), '.tif', { compression: 'lzw', predictor: 'horizontal' }),
    rgb8,
  ),
  exact(
    'deflate-16.tif',
    () => makeFile(plan(3, rgb16, 'rgb16', true), '.tif', { compression: 'deflate' }),
    rgb16,
    3,
    16,
  ),
  exact(
    'lzw-alpha-16.tif',
    () => makeFile(plan(4, rgba16, 'rgb16', true), '.tif', { compression: 'lzw' }),
    rgba16,
    4,
    16,
  ),
  exact('grey-8.tif', () => makeFile(plan(1, grey8, 'b-w'), '.tif'), spread(grey8, 8)),
  exact('grey-16.tif', () => makeFile(plan(1, grey16, 'grey16', true), '.tif'), spread(grey16, 16), 3, 16),
  exact(
    'tiled.tif',
    () => makeFile(plan(3, rgb8, 'srgb'), '.tif', { tile: true, tile_width: 16, tile_height: 16 }),
    rgb8,
  ),
  exact('lossless.webp', () => makeFile(plan(3, rgb8, 'srgb'), '.webp', { lossless: true }), rgb8),
  {
    name: 'baseline.jpg',
    bytes: lossy((i) => i.jpeg({ quality: 90 })),
    channels: 3,
    depth: 8,
    codes: null,
  },
  {
    name: 'full-colour.jpg',
    bytes: lossy((i) => i.jpeg({ quality: 95, chromaSubsampling: '4:4:4' })),
    channels: 3,
    depth: 8,
    codes: null,
  },
  {
    name: 'progressive.jpg',
    bytes: lossy((i) => i.jpeg({ progressive: true })),
    channels: 3,
    depth: 8,
    codes: null,
  },
  {
    name: 'grey.jpg',
    bytes: lossy((i) => i.toColourspace('b-w').jpeg()),
    channels: 3,
    depth: 8,
    codes: null,
  },
  {
    name: 'lossy.webp',
    bytes: lossy((i) => i.webp({ quality: 80 })),
    channels: 3,
    depth: 8,
    codes: null,
  },
  {
    name: 'lossy-alpha.webp',
    bytes: lossy((i) => i.ensureAlpha(0.5).webp({ quality: 80 })),
    channels: 4,
    depth: 8,
    codes: null,
  },
  { name: 'still.gif', bytes: lossy((i) => i.gif()), channels: 3, depth: 8, codes: null },
  {
    name: 'lossy.avif',
    bytes: lossy((i) => i.avif({ quality: 70 })),
    channels: 3,
    depth: 8,
    codes: null,
  },
];

/** The picture behind the lossy fixtures. */
export const SOFT: Uint8Array = soft;

/** The light of the five painted versions, read as everyone reads a picture and held against what was planted in them. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import {
  examine,
  type Field,
  makeViews,
  OPEN_INTENT,
  readingInput,
  readLight,
  SRGB,
  takeCensus,
} from '@halflight/engine';
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { pictureName } from '../../src/files.ts';
import { demoFolder } from '../../src/folder.ts';

type Kind = 'neutral' | 'opposite';

interface Read {
  readonly findings: string[];
  /** The whole picture's shares: flagged where planted of what was planted, and flagged elsewhere. */
  readonly found: Record<Kind, number>;
  readonly elsewhere: Record<Kind, number>;
}

const reads: Read[] = [];
const of = (version: number) => reads[version - 1]!;

// `npm test` has painted them before; else they are painted now, once.
beforeAll(async () => {
  const folder = await demoFolder({ workers: 0 });
  for (const version of [1, 2, 3, 4, 5]) reads.push(await readVersion(folder, version));
}, 600_000);

async function readVersion(folder: string, version: number): Promise<Read> {
  const { data, info } = await sharp(join(folder, pictureName(version)))
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height } = info;
  const raster = { width, height, channels: 3, depth: 8, data, space: SRGB } as const;
  const views = makeViews(raster);
  const picture = {
    name: `version ${version}`,
    width,
    height,
    depth: 8,
    profile: 'sRGB',
    tagged: true,
  } as const;
  const input = readingInput({ picture, census: takeCensus(raster), views, intent: OPEN_INTENT });
  const light = readLight(views.middle);
  const found = { neutral: 0, opposite: 0 };
  const elsewhere = { neutral: 0, opposite: 0 };
  for (const kind of ['neutral', 'opposite'] as const) {
    const mask = await maskOf(folder, version, kind, light.width, light.height);
    [found[kind], elsewhere[kind]] = compare(light[kind], mask);
  }
  return { findings: examine(input).findings.map(({ key }) => key), found, elsewhere };
}

/** Where a fault was planted, 1 or 0, at the size that light is read at. */
async function maskOf(folder: string, version: number, kind: Kind, width: number, height: number) {
  const path = join(folder, pictureName(version).replace('.png', `.${kind}.png`));
  const { data, info } = await sharp(await readFile(path))
    .resize(width, height, { fit: 'fill', kernel: 'nearest' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  return Uint8Array.from({ length: width * height }, (_, i) => (data[i * info.channels]! > 127 ? 1 : 0));
}

/** Pixels around what was planted where half tones and the reach of strokes count neither way. */
const RIM = 4;

function compare({ width, height, data }: Field, planted: Uint8Array): [found: number, elsewhere: number] {
  let [area, inside, outside] = [0, 0, 0];
  const near = (x: number, y: number) => {
    for (let v = Math.max(0, y - RIM); v <= Math.min(height - 1, y + RIM); v++)
      for (let u = Math.max(0, x - RIM); u <= Math.min(width - 1, x + RIM); u++)
        if (planted[v * width + u]) return true;
    return false;
  };
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      area += planted[i]!;
      if (!(data[i]! > 0)) continue;
      if (planted[i]) inside++;
      else if (!near(x, y)) outside++;
    }
  return [area > 0 ? inside / area : 0, outside / (width * height)];
}

const ofLight = (version: number) => of(version).findings.filter((key) => key.startsWith('light.'));

describe('what was planted is found', () => {
  it.each([1, 2])('version %i: shade that only darkens, on at least a third of its area', (version) => {
    expect(ofLight(version)).toEqual(['light.neutral']);
    expect(of(version).found.neutral).toBeGreaterThan(1 / 3);
  });

  it('version 3: the shed in the opposite light, on at least a third of its area', () => {
    expect(ofLight(3)).toEqual(['light.opposite']);
    expect(of(3).found.opposite).toBeGreaterThan(1 / 3);
  });
});

describe('what was not planted is not', () => {
  it.each([1, 2, 3])('version %i: less than 1 %% of the picture is flagged elsewhere', (version) => {
    const { neutral, opposite } = of(version).elsewhere;
    expect(neutral + opposite).toBeLessThan(0.01);
  });

  it('version 4 has nothing to say of its light, and version 5 passes altogether', () => {
    expect(ofLight(4)).toEqual([]);
    expect(of(5).findings).toEqual([]);
  });
});

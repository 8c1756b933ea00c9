import {
  A98_RGB,
  DELIVERY_SPACES,
  EMPTY_RECIPE,
  type HandoverSettings,
  makeCloseView,
  type Place,
  PRESETS,
  SRGB,
  stepKind,
} from '@halflight/engine';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { bytesSource } from '../../src/dossier/source.ts';
import { openInks } from '../../src/handover/inks.ts';
import { openProfile } from '../../src/handover/profileFile.ts';
import { INK_LIMIT, viewInProfile } from '../../src/handover/proof.ts';
import { openWitness } from '../../src/handover/witness.ts';
import { writePicture } from '../../src/handover/write.ts';
import { writeProfile } from '../../src/icc/write.ts';
import { openCodec } from '../../src/node/codec.ts';
import { startLibrary } from '../../src/node/library.ts';
import { openOpenRaster } from '../../src/openraster/open.ts';
import { recipe, settings, source } from './samples.ts';

const codec = await openCodec();
const vips = await startLibrary({ dynamicLibraries: [] });
// The general coated-paper profile that comes with the imaging library.
const cmyk = vips.Image.profileLoad('cmyk').slice();
afterAll(() => {
  codec.close();
  vips.shutdown();
});

const backOf = (bytes: Uint8Array, name: string) => codec.decode(bytes, { name });

describe('a file is what was asked for', () => {
  const cases = (['png', 'jpeg', 'tiff', 'webp'] as const).flatMap((format) =>
    (['srgb', 'display-p3', 'a98-rgb'] as const).map((space) => [format, space] as const),
  );
  test.each(cases)('%s in %s', async (format, space) => {
    const made = await writePicture(codec, source(), recipe, settings({ format, space, depth: 16 }));
    const back = await backOf(made.bytes, made.name);
    const deep = format === 'png' || format === 'tiff';
    expect(made).toMatchObject({ width: 45, height: 30, depth: deep ? 16 : 8, ink: null });
    expect(made.notes).toHaveLength(deep ? 0 : 1);
    expect(back.raster).toMatchObject({ width: 45, height: 30, space: DELIVERY_SPACES[space] });
    expect(back.facts.tagged).toBe(true);
  });
  test('the same colours in every space', async () => {
    const means = await Promise.all(
      (['srgb', 'display-p3', 'a98-rgb', 'own'] as const).map(async (space) => {
        const made = await writePicture(
          codec,
          source(),
          recipe,
          settings({ format: 'png', space, depth: 16 }),
        );
        const { rgb } = makeCloseView((await backOf(made.bytes, made.name)).raster);
        return [0, 1, 2].map((c) => rgb.filter((_, i) => i % 3 === c).reduce((a, b) => a + b, 0));
      }),
    );
    for (const mean of means) for (let c = 0; c < 3; c++) expect(mean[c] / means[0][c]).toBeCloseTo(1, 3);
  });
  test('a transparent picture keeps its transparency, and JPEG shows the ground', async () => {
    const png = await writePicture(codec, source(4), recipe, settings({ format: 'png' }));
    expect((await backOf(png.bytes, png.name)).raster.channels).toBe(4);
    const size = { ...settings({}).size, ground: '#ff0000' };
    const jpeg = await writePicture(codec, source(4), recipe, settings({ size }));
    const { data } = (await backOf(jpeg.bytes, jpeg.name)).raster;
    expect(data[0]).toBeGreaterThan(240);
    expect(data[1]).toBeLessThan(15);
  });
  test('the size in print is written', async () => {
    const size = { ...PRESETS.print.size, width: 30, height: 30, pixelsPerInch: 25.4 };
    const made = await writePicture(codec, source(), recipe, settings({ format: 'tiff', size }));
    expect(made).toMatchObject({ width: 30, height: 20, pixelsPerInch: 25.4 });
    const image = vips.Image.newFromBuffer(made.bytes);
    expect(image.xres * 25.4).toBeCloseTo(25.4, 2);
    image.delete();
  });
  test('a layered file has the picture as painted, each step and the guide, in the depth that was asked for', async () => {
    const square = new Float32Array([0.1, 0.1, 0.5, 0.1, 0.5, 0.5, 0.1, 0.5]);
    const places = [{ outline: [square], swatches: [{ rgb: [0.2, 0.3, 0.4] }] }] as unknown as Place[];
    const titled = { ...PRESETS.layered, metadata: { ...PRESETS.layered.metadata, title: 'Slack water' } };
    const made = await writePicture(codec, source(4, A98_RGB), recipe, titled, { places });
    expect(made).toMatchObject({ name: 'ferry layered.ora', depth: 16 });
    const file = await openOpenRaster(bytesSource(made.bytes, made.name), 100);
    expect(file.nodes.map(({ name }) => name)).toEqual([
      'As painted',
      ...recipe.steps.map(({ kind }) => stepKind(kind).title),
      'Guide layer',
    ]);
    const [merged, flat] = await Promise.all([
      codec.decode((await file.merged())!, { name: 'merged.png' }),
      writePicture(codec, source(4, A98_RGB), recipe, { ...PRESETS.layered, format: 'png' }),
    ]);
    expect(new TextDecoder().decode(merged.metadata.xmp!)).toContain('Slack water');
    expect(merged.raster).toEqual((await codec.decode(flat.bytes, { name: 'flat.png' })).raster);
    const plain = await writePicture(codec, source(4, A98_RGB), EMPTY_RECIPE, PRESETS.layered);
    expect((await openOpenRaster(bytesSource(plain.bytes, 'x.ora'), 100)).nodes).toHaveLength(1);
  });
  test('cancelling stops it', async () => {
    const made = writePicture(codec, source(), recipe, settings({}), { signal: AbortSignal.abort() });
    await expect(made).rejects.toThrow(/abort/i);
  });
});

describe('profiles', () => {
  const ink = (change: Partial<HandoverSettings> = {}) =>
    settings({
      format: 'tiff',
      space: { profile: 'paper.icc', intent: 'relative', blackPoint: true },
      ...change,
    });
  test.each([8, 16] as const)('inks at %i bit, with their sum', async (depth) => {
    const made = await writePicture(codec, source(4), recipe, ink({ depth }), { profile: cmyk });
    const image = vips.Image.newFromBuffer(made.bytes);
    expect([image.interpretation, image.bands, image.format]).toEqual([
      'cmyk',
      4,
      depth === 8 ? 'uchar' : 'ushort',
    ]);
    expect(Buffer.compare(image.getBlob('icc-profile-data'), cmyk)).toBe(0);
    image.delete();
    expect(made.ink?.most).toBeGreaterThan(150);
    expect(made.ink?.most).toBeLessThan(INK_LIMIT + 40);
  });
  test('JPEG holds inks too', async () => {
    const made = await writePicture(codec, source(), recipe, ink({ format: 'jpeg', quality: 95 }), {
      profile: cmyk,
    });
    expect((await sharp(made.bytes).metadata()).channels).toBe(4);
  });
  test('a profile of curves and a matrix needs no library', async () => {
    const made = await writePicture(codec, source(4), recipe, ink({ format: 'png' }), {
      profile: writeProfile(A98_RGB),
    });
    expect((await backOf(made.bytes, made.name)).raster).toMatchObject({ space: A98_RGB, channels: 4 });
  });
  test('a paper loses saturated colours and keeps muted ones', () => {
    const inks = openInks(vips, openProfile(cmyk, 'paper.icc'));
    const rgb = Float32Array.of(0, 0, 1, 0.6, 0.6, 0.6);
    const { view } = viewInProfile({ width: 2, height: 1, rgb, alpha: null, scale: 1 }, inks, {
      intent: 'relative',
      blackPoint: false,
    });
    expect(view.rgb[2]).toBeLessThan(0.5);
    for (const v of view.rgb.subarray(3)) expect(Math.abs(v - 0.6)).toBeLessThan(0.08);
  });
  const tables = (kind: string, model = 'RGB ') => {
    const bytes = writeProfile(SRGB);
    bytes.set(new TextEncoder().encode(kind), 12);
    bytes.set(new TextEncoder().encode(model), 16);
    return bytes;
  };
  test.each([
    ['text', new TextEncoder().encode('not a profile'), 'not a colour profile'],
    ['an empty file', new Uint8Array(0), 'not a colour profile'],
    ['a cut profile', cmyk.subarray(0, 9000), 'not a colour profile'],
    ['a link', tables('link'), 'link between two devices'],
    ['an abstract profile', tables('abst'), 'edit of colours'],
    ['a grey profile', tables('mntr', 'GRAY'), 'grey pictures'],
  ])('%s is refused', (_, bytes, words) => {
    expect(() => openProfile(bytes, 'paper.icc')).toThrow(words);
  });
  test('inks fit neither PNG nor WebP, and a profile has to be given', async () => {
    const png = writePicture(codec, source(), recipe, ink({ format: 'png' }), { profile: cmyk });
    await expect(png).rejects.toThrow('Choose TIFF or JPEG');
    await expect(writePicture(codec, source(), recipe, ink())).rejects.toThrow('was not given');
  });
  test('tables that are damaged inside are told', async () => {
    const broken = cmyk.slice();
    broken.fill(0xff, 2000, 60000);
    const profile = (() => {
      try {
        return openProfile(broken, 'paper.icc');
      } catch (error) {
        return error as Error;
      }
    })();
    if (profile instanceof Error) expect(profile.name).toBe('FileTrouble');
    else expect(() => openInks(vips, profile)).toThrow('can’t be used');
  });
});

test('a witness tells a changed, a moved and a missing value', () => {
  const data = Uint8Array.from({ length: 3 * 64 }, (_, i) => (i * 37) % 256);
  const see = (change: (d: Uint8Array) => void) => {
    const copy = data.slice();
    change(copy);
    const witness = openWitness(8, 8, 3);
    witness.see(copy, 0, 8);
    return witness;
  };
  const meant = see(() => {});
  expect(meant.isSame(see(() => {}))).toBe(true);
  expect(meant.isSame(see((d) => d[7]++))).toBe(false);
  expect(meant.isSame(see((d) => d.set([d[1], d[0]])))).toBe(false);
  expect(
    meant.isNear(
      see((d) => d[7]++),
      8,
      90,
    ),
  ).toBe(true);
  expect(
    meant.isNear(
      see((d) => d.fill(0, 0, 60)),
      8,
      90,
    ),
  ).toBe(false);
});

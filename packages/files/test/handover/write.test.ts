import {
  A98_RGB,
  DELIVERY_SPACES,
  EMPTY_RECIPE,
  type HandoverSettings,
  makeCloseView,
  PRESETS,
  type Raster,
  type Recipe,
  SRGB,
} from '@halflight/engine';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { bytesSource } from '../../src/dossier/source.ts';
import { openInks } from '../../src/handover/inks.ts';
import { withoutPosition } from '../../src/handover/metadata.ts';
import { openProfile } from '../../src/handover/profileFile.ts';
import { INK_LIMIT, viewInProfile } from '../../src/handover/proof.ts';
import { openWitness } from '../../src/handover/witness.ts';
import { type HandoverSource, writePicture } from '../../src/handover/write.ts';
import { editXmp, writeXmp } from '../../src/handover/xmp.ts';
import { writeProfile } from '../../src/icc/write.ts';
import { openCodec } from '../../src/node/codec.ts';
import { startLibrary } from '../../src/node/library.ts';
import { openOpenRaster } from '../../src/openraster/open.ts';

const codec = await openCodec();
const vips = await startLibrary({ dynamicLibraries: [] });
// The general coated-paper profile that comes with the imaging library.
const cmyk = vips.Image.profileLoad('cmyk').slice();
afterAll(() => {
  codec.close();
  vips.shutdown();
});

function source(channels: 3 | 4 = 3, space = SRGB): HandoverSource {
  const width = 90;
  const height = 60;
  const data = new Uint16Array(width * height * channels);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const dusk = [x / width, y / height, 0.3 + 0.5 * Math.sin(x / 9) * Math.cos(y / 7), x < 30 ? 0 : 1];
      for (let c = 0; c < channels; c++) data[i++] = Math.round(65535 * Math.min(1, Math.max(0, dusk[c])));
    }
  const raster: Raster = { width, height, channels, depth: 16, data, space };
  const facts = { name: 'ferry.png', width, height, depth: 16 as const, profile: space.name, tagged: true };
  return { raster, facts, profile: null, metadata: { exif: null, xmp: null, iptc: null } };
}

const recipe: Recipe = {
  schema: 'halflight/recipe@1',
  steps: [{ kind: 'exposure', on: true, strength: 1, values: { stops: -0.3 } }],
};

function settings(change: Partial<HandoverSettings>): HandoverSettings {
  return { ...PRESETS.screen, size: { ...PRESETS.screen.size, width: 45, height: 45 }, ...change };
}

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
  test('a layered file has the picture before and after', async () => {
    const made = await writePicture(codec, source(4, A98_RGB), recipe, PRESETS.layered);
    expect(made.name).toBe('ferry layered.ora');
    const file = await openOpenRaster(bytesSource(made.bytes, made.name), 100);
    expect(file.nodes.map(({ name }) => name).sort()).toEqual(['As painted', 'With the edit']);
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

describe('beside the pixels', () => {
  const texts = { title: 'Dusk & <mud>', author: 'Ada Example', rights: '© 2026 "Ada"' };
  test.each(['png', 'jpeg', 'tiff', 'webp'] as const)('title, author and rights in %s', async (format) => {
    const metadata = { ...PRESETS.screen.metadata, ...texts };
    const made = await writePicture(codec, source(), recipe, settings({ format, metadata }));
    const { xmp, exif } = (await backOf(made.bytes, made.name)).metadata;
    const text = new TextDecoder().decode(xmp ?? new Uint8Array(0));
    expect(text).toContain('<rdf:li xml:lang="x-default">Dusk &amp; &lt;mud&gt;</rdf:li>');
    expect(text).toContain('<dc:creator><rdf:Seq><rdf:li>Ada Example</rdf:li></rdf:Seq></dc:creator>');
    expect(text).toContain('© 2026 &quot;Ada&quot;');
    expect(exif).toBeNull();
  });
  test('nothing to say, nothing written', () => {
    expect(writeXmp({ title: '', author: '', rights: '' })).toBeNull();
  });
  const packet = new TextEncoder().encode(
    `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="r"><rdf:Description rdf:about="" exif:GPSLatitude="54,1N" tiff:Make="Old"><dc:title><rdf:Alt><rdf:li>Before</rdf:li></rdf:Alt></dc:title><Iptc4xmpExt:LocationShown><rdf:Bag><rdf:li>Here</rdf:li></rdf:Bag></Iptc4xmpExt:LocationShown><exif:GPSLongitude>8,2E</exif:GPSLongitude></rdf:Description></rdf:RDF></x:xmpmeta>`,
  );
  test('a packet that was there loses its place and its title, and keeps the rest', () => {
    const text = new TextDecoder().decode(editXmp(packet, texts, false)!);
    expect(text).not.toMatch(/GPS|Location|Before|Here/);
    expect(text).toContain('tiff:Make="Old"');
    expect(text).toContain('Dusk &amp;');
    expect(new TextDecoder().decode(editXmp(packet, texts, true)!)).toContain('GPSLatitude="54,1N"');
  });
  test('the position goes from EXIF and the rest stays', async () => {
    const jpeg = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#456' } })
      .withExif({
        IFD0: { Make: 'Example', Copyright: 'Ada' },
        IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '54/1 3/1 0/1' },
      })
      .jpeg()
      .toBuffer();
    const decoded = await backOf(jpeg, 'x.jpg');
    const bare = withoutPosition(decoded.metadata.exif!)!;
    const text = Buffer.from(bare).toString('latin1');
    expect(text).toContain('Example');
    expect(text).toContain('Ada');
    const metadata = { ...PRESETS.screen.metadata, keepOthers: true };
    const made = await writePicture(codec, { ...decoded }, EMPTY_RECIPE, settings({ metadata }));
    const kept = (await sharp(made.bytes).metadata()).exif!;
    expect(kept.toString('latin1')).toContain('Example');
    // The tag of the directory of positions, in either byte order.
    expect(kept.includes(Buffer.from([0x88, 0x25]))).toBe(false);
    expect(kept.includes(Buffer.from([0x25, 0x88]))).toBe(false);
    expect(decoded.metadata.exif!.some((v, i, all) => v === 0x25 && all[i + 1] === 0x88)).toBe(true);
  });
});

test('a witness tells a changed, a moved and a missing value', () => {
  const data = Uint8Array.from({ length: 3 * 64 }, (_, i) => (i * 37) % 256);
  const see = (change: (d: Uint8Array) => void) => {
    const copy = data.slice();
    change(copy);
    const witness = openWitness(8, 8, 3, false);
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

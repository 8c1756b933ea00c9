import { A98_RGB, ciede2000, DISPLAY_P3, linearToCielab, SRGB, type Triple } from '@halflight/engine';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { writeProfile } from '../src/icc/write.ts';
import { openCodec } from '../src/node/codec.ts';
import type { Decoded } from '../src/types.ts';
import { farthest, linearAt } from './made/light.ts';
import { GREY, iccChunk, makePng, RGB, uint32 } from './made/png.ts';
import { makeFile, vips } from './made/vips.ts';
import { asLinear, keptProfile, lcms } from './oracle/lcms.ts';
import { makeTableProfile } from './oracle/made-table.mjs';

const codecs = { native: await openCodec(), wasm: await openCodec({ fast: false }) };
const both = Object.entries(codecs);
afterAll(() => {
  for (const codec of Object.values(codecs)) codec.close();
});

const row = (samples: number[], chunks: [string, Uint8Array][], bits: 8 | 16 = 8) =>
  makePng({ width: samples.length / 3, height: 1, bits, type: RGB, samples, chunks });
const p3 = writeProfile(DISPLAY_P3);
const decode = (bytes: Uint8Array, name = 'x.png') => codecs.wasm.decode(bytes, { name });

describe('Display P3 green', () => {
  // The value of the issue: CSS Color 4 conversion of color(display-p3 0 1 0).
  const GREEN: Triple = [-0.2249, 1.0421, -0.0786];
  const top = 65535;
  const files: [string, Uint8Array | Promise<Uint8Array>][] = [
    ['PNG 8', row([0, 255, 0], [iccChunk(p3)])],
    ['PNG 16', row([0, top, 0], [iccChunk(p3)], 16)],
    ['PNG cICP', row([0, 255, 0], [['cICP', Uint8Array.of(12, 13, 0, 1)]])],
    [
      'TIFF',
      makeFile(
        { width: 1, height: 1, bands: 3, data: Uint8Array.of(0, 255, 0), interpretation: 'srgb', icc: p3 },
        '.tif',
      ),
    ],
    [
      'WebP',
      makeFile(
        { width: 1, height: 1, bands: 3, data: Uint8Array.of(0, 255, 0), interpretation: 'srgb', icc: p3 },
        '.webp',
        {
          lossless: true,
        },
      ),
    ],
    ['AVIF', codecs.wasm.encode(green(), { format: 'avif', quality: 'lossless' })],
  ];
  for (const [build, codec] of both)
    test.each(files)(`%s, ${build}`, async (name, file) => {
      const { raster, facts } = await codec.decode(await file, { name });
      expect(farthest(linearAt(raster, 0), GREEN)).toBeLessThan(1e-3);
      expect(facts).toMatchObject({ profile: 'Display P3', tagged: true });
    });

  function green() {
    const data = Uint8Array.from({ length: 64 * 64 * 3 }, (_, i) => (i % 3 === 1 ? 255 : 0));
    return { width: 64, height: 64, channels: 3, depth: 8, data, space: DISPLAY_P3 } as const;
  }
});

describe('table profiles against LittleCMS (transicc)', () => {
  /**
   * CIEDE2000, far below what an eye sees: the library counts XYZ in steps of 1/32768, which is most in deep
   * shade. Colours outside the wide space are clipped and left out.
   */
  const check = ({ raster, notes }: Decoded, name: string, clip: boolean) => {
    const { xyz } = lcms.profiles[name];
    expect(raster).toMatchObject({ channels: 3, depth: 16 });
    expect(notes.join()).toMatch(/wide 16-bit RGB/);
    let compared = 0;
    const differences: number[] = [];
    xyz.forEach((answer, i) => {
      const expected = asLinear(answer);
      if (clip && raster.data.slice(3 * i, 3 * i + 3).some((v) => v === 0 || v === 65535)) return;
      compared++;
      differences.push(ciede2000(linearToCielab(linearAt(raster, i)), linearToCielab(expected)));
    });
    expect(compared).toBeGreaterThan(xyz.length * 0.7);
    differences.sort((a, b) => a - b);
    expect(differences[differences.length >> 1]).toBeLessThan(0.1);
    expect(differences.at(-1)).toBeLessThan(0.5);
  };

  test('CMYK with its profile, TIFF', async () => {
    const { codes } = lcms.profiles.cmyk;
    const icc = (await vips()).Image.profileLoad('cmyk');
    const plan = {
      width: codes.length,
      height: 1,
      bands: 4,
      data: Uint8Array.from(codes.flat()),
      interpretation: 'cmyk',
      icc,
    };
    for (const [, codec] of both) {
      const decoded = await codec.decode(await makeFile(plan, '.tif'), { name: 'x.tif' });
      check(decoded, 'cmyk', false);
      expect(decoded.facts.tagged).toBe(true);
      expect(Buffer.compare(decoded.profile!, icc)).toBe(0);
    }
  });

  test('CMYK with its profile, JPEG: patches keep their colour', async () => {
    const { codes, xyz } = lcms.profiles.cmyk;
    const icc = (await vips()).Image.profileLoad('cmyk');
    const data = Uint8Array.from(codes.flatMap((code) => Array.from({ length: 64 }, () => code).flat()));
    const plan = { width: 8, height: 8 * codes.length, bands: 4, data, interpretation: 'cmyk', icc };
    const { raster } = await codecs.native.decode(await makeFile(plan, '.jpg', { Q: 100 }), {
      name: 'x.jpg',
    });
    // One code value of an ink, where it changes light most, is 1/255 of white at the most steeply rising curve.
    codes.forEach((_, i) => {
      expect(farthest(linearAt(raster, 64 * i + 27), asLinear(xyz[i]))).toBeLessThan(0.012);
    });
  });

  test('RGB by table', async () => {
    const { codes } = lcms.profiles['made-table'];
    for (const [, codec] of both) {
      const decoded = await codec.decode(row(codes.flat(), [iccChunk(makeTableProfile())]), {
        name: 'x.png',
      });
      check(decoded, 'made-table', true);
      expect(decoded.facts.profile).toBe('Made table');
    }
  });

  test('grey by lightness', async () => {
    const { codes } = lcms.profiles['Gray-CIE_L'];
    const samples = codes.flat();
    const file = makePng({
      width: samples.length,
      height: 1,
      bits: 8,
      type: GREY,
      samples,
      chunks: [iccChunk(keptProfile('Gray-CIE_L'))],
    });
    for (const [, codec] of both) check(await codec.decode(file, { name: 'x.png' }), 'Gray-CIE_L', true);
  });

  test('alpha stays as it is beside converted colours', async () => {
    const data = Uint8Array.of(10, 20, 30, 40, 0, 200, 20, 30, 40, 255, 90, 20, 30, 40, 77);
    const icc = (await vips()).Image.profileLoad('cmyk');
    const plan = { width: 3, height: 1, bands: 5, data, interpretation: 'cmyk', icc };
    const { raster } = await decode(await makeFile(plan, '.tif'), 'x.tif');
    expect(raster.channels).toBe(4);
    expect([3, 7, 11].map((i) => raster.data[i])).toEqual([0, 65535, 77 * 257]);
  });
});

describe('pictures that need no profile', () => {
  test('Lab in a TIFF: its numbers come out as the library’s own conversion', async () => {
    // CIELAB (D65) 50 20 −30 in linear sRGB, by CSS Color 4 arithmetic: lab-d65 → xyz-d65 → srgb-linear.
    const [fy, fx, fz] = [(50 + 16) / 116, (50 + 16) / 116 + 20 / 500, (50 + 16) / 116 + 30 / 200];
    const xyz = [0.95047 * fx ** 3, fy ** 3, 1.08883 * fz ** 3];
    const expected = [
      3.2404542 * xyz[0] - 1.5371385 * xyz[1] - 0.4985314 * xyz[2],
      -0.969266 * xyz[0] + 1.8760108 * xyz[1] + 0.041556 * xyz[2],
      0.0556434 * xyz[0] - 0.2040259 * xyz[1] + 1.0572252 * xyz[2],
    ];
    const plan = { width: 1, height: 1, bands: 3, data: Float32Array.of(50, 20, -30), interpretation: 'lab' };
    const { raster, facts } = await decode(await makeFile(plan, '.tif'), 'x.tif');
    expect(farthest(linearAt(raster, 0), expected)).toBeLessThan(1e-3);
    expect(facts).toMatchObject({ depth: 16, profile: 'CIELAB' });
  });

  test('linear floating point', async () => {
    const plan = {
      width: 2,
      height: 1,
      bands: 3,
      data: Float32Array.of(0.5, 0.25, 0.001, 1, 1, 1),
      interpretation: 'scrgb',
    };
    const { raster } = await decode(await makeFile(plan, '.tif'), 'x.tif');
    expect(farthest(linearAt(raster, 0), [0.5, 0.25, 0.001])).toBeLessThan(2e-4);
    expect(farthest(linearAt(raster, 1), [1, 1, 1])).toBeLessThan(2e-4);
  });
});

test('alpha beside linear floating point runs from 0 to 1', async () => {
  const data = Float32Array.of(1, 1, 1, 1, 0.5, 0.5, 0.5, 0.25);
  const { raster } = await decode(
    await makeFile({ width: 2, height: 1, bands: 4, data, interpretation: 'scrgb' }, '.tif'),
    'x.tif',
  );
  expect([raster.data[3], raster.data[7]]).toEqual([65535, Math.round(0.25 * 65535)]);
});

describe('what is said about the colours', () => {
  const black = [0, 0, 0];
  const srgb = writeProfile(SRGB);
  test.each([
    ['nothing', row(black, []), SRGB, false, 'sRGB (assumed, the file names none)'],
    ['sRGB chunk', row(black, [['sRGB', Uint8Array.of(0)]]), SRGB, true, 'sRGB'],
    ['sRGB profile', row(black, [iccChunk(srgb)]), SRGB, true, 'sRGB'],
    ['a98-rgb profile', row(black, [iccChunk(writeProfile(A98_RGB))]), A98_RGB, true, 'a98-rgb'],
    [
      'profile before chunk',
      row(black, [['sRGB', Uint8Array.of(0)], iccChunk(p3)]),
      DISPLAY_P3,
      true,
      'Display P3',
    ],
    [
      'code before profile',
      row(black, [['cICP', Uint8Array.of(1, 13, 0, 1)], iccChunk(p3)]),
      SRGB,
      true,
      'sRGB',
    ],
    [
      'lone screen gamma',
      row(black, [['gAMA', uint32(45455)]]),
      SRGB,
      false,
      'sRGB (assumed, the file names none)',
    ],
  ] as const)('%s', async (_, file, space, tagged, profile) => {
    for (const [, codec] of both) {
      const decoded = await codec.decode(file, { name: 'x.png' });
      expect(decoded.raster.space).toEqual(space);
      expect(decoded.facts).toMatchObject({ tagged, profile });
      expect(decoded.notes).toEqual([]);
    }
  });

  test.each([
    ['damaged', iccChunk(new Uint8Array(300).fill(7)), /damaged/],
    ['cut off', iccChunk(p3.subarray(0, 200)), /damaged/],
    ['for another kind of picture', iccChunk(keptProfile('Gray')), /another kind/],
  ] as const)('a profile that is %s: sRGB, and said', async (_, chunk, note) => {
    for (const bits of [8, 16] as const)
      for (const [, codec] of both) {
        const decoded = await codec.decode(row([9, 9, 9], [chunk], bits), { name: 'x.png' });
        expect(decoded.raster.space).toEqual(SRGB);
        expect(decoded.facts).toMatchObject({ tagged: false, depth: bits });
        expect(decoded.notes.join()).toMatch(note);
      }
  });

  test('CMYK without a profile: approximate, and said', async () => {
    const data = Uint8Array.of(0, 0, 0, 0, 255, 0, 0, 0);
    const plan = { width: 2, height: 1, bands: 4, data, interpretation: 'cmyk' };
    const { raster, facts, notes } = await decode(await makeFile(plan, '.tif', { keep: 0 }), 'x.tif');
    expect(facts.tagged).toBe(false);
    expect(notes.join()).toMatch(/without a profile/);
    expect(farthest(linearAt(raster, 0), [1, 1, 1])).toBeLessThan(1e-3);
    const cyan = linearAt(raster, 1);
    expect(cyan[0]).toBeLessThan(cyan[1]);
    expect(cyan[0]).toBeLessThan(cyan[2]);
  });

  test('EXIF names the space where nothing else does', async () => {
    const pixels = { raw: { width: 1, height: 1, channels: 3 } } as const;
    const write = (exif: object) =>
      sharp(Uint8Array.of(1, 2, 3), pixels)
        .withExif(exif)
        .jpeg()
        .toBuffer();
    const srgbFile = await write({ IFD2: { ColorSpace: '1' } });
    expect((await decode(srgbFile)).facts).toMatchObject({ tagged: true, profile: 'sRGB' });
    const none = await write({ IFD2: { ColorSpace: '65535' } });
    expect((await decode(none)).facts.tagged).toBe(false);
    const wide = await write({ IFD2: { ColorSpace: '65535' }, IFD4: { InteroperabilityIndex: 'R03' } });
    expect((await decode(wide)).facts).toMatchObject({ tagged: true, profile: 'a98-rgb' });
  });

  test('brighter than white is refused in words', async () => {
    for (const [, codec] of both)
      await expect(
        codec.decode(row(black, [['cICP', Uint8Array.of(9, 16, 0, 1)]]), { name: 'x.png' }),
      ).rejects.toMatchObject({ kind: 'format', sentence: expect.stringMatching(/brighter than white/) });
  });
});

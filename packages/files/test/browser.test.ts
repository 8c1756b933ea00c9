import { DISPLAY_P3, EMPTY_RECIPE, type HandoverSettings, PRESETS } from '@halflight/engine';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { findBrowser, NO_BROWSER } from '../../../scripts/house/browser.mjs';
import { writePicture } from '../src/handover/write.ts';
import { writeProfile } from '../src/icc/write.ts';
import { openCodec } from '../src/node/codec.ts';
import { type BrowserCodec, openBrowserCodec } from './browser/serve.ts';
import { digest } from './digest.ts';
import { FIXTURES } from './made/fixtures.ts';
import { farthest } from './made/light.ts';
import { iccChunk, makePng, RGB } from './made/png.ts';
import { makeFile, vips } from './made/vips.ts';
import { lcms } from './oracle/lcms.ts';
import { makeTableProfile } from './oracle/made-table.mjs';

const base64 = (bytes: Uint8Array) => Buffer.from(bytes).toString('base64');
const green = makePng({
  width: 1,
  height: 1,
  bits: 8,
  type: RGB,
  samples: [0, 255, 0],
  chunks: [iccChunk(writeProfile(DISPLAY_P3))],
});
/** CSS Color 4 conversion of color(display-p3 0 1 0), the value of the issue. */
const GREEN = [-0.2249, 1.0421, -0.0786];

const codec = await openCodec();
let isolated: BrowserCodec;
let apart: BrowserCodec;

beforeAll(async () => {
  const path = await findBrowser();
  if (!path) throw new Error(NO_BROWSER);
  isolated = await openBrowserCodec(path);
  apart = await openBrowserCodec(path, false);
}, 120_000);
afterAll(async () => {
  codec.close();
  await isolated?.close();
  await apart?.close();
});

describe('a browser worker under the app’s policy gives Node’s numbers', () => {
  test.each(FIXTURES)('$name', async ({ name, bytes }) => {
    const file = await bytes();
    const answer = await isolated.ask({ codec: 'full', name, bytes: base64(file) });
    expect(answer).toMatchObject({ ...digest(await codec.decode(file, { name })), canOpen: true });
  });

  test('pixels through table profiles', async () => {
    const icc = (await vips()).Image.profileLoad('cmyk');
    const inks = lcms.profiles.cmyk.codes;
    const data = Uint8Array.from(inks.flat());
    const cmyk = await makeFile(
      { width: inks.length, height: 1, bands: 4, data, interpretation: 'cmyk', icc },
      '.tif',
    );
    const samples = lcms.profiles['made-table'].codes.flat();
    const table = makePng({
      width: samples.length / 3,
      height: 1,
      bits: 8,
      type: RGB,
      samples,
      chunks: [iccChunk(makeTableProfile())],
    });
    for (const [name, file] of [
      ['cmyk.tif', cmyk],
      ['table.png', table],
    ] as const) {
      const answer = await isolated.ask({ codec: 'full', name, bytes: base64(file) });
      expect(answer).toMatchObject(digest(await codec.decode(file, { name })));
    }
  });

  test('Display P3 green', async () => {
    const { first } = await isolated.ask({ codec: 'full', name: 'green.png', bytes: base64(green) });
    expect(farthest(first as number[], GREEN)).toBeLessThan(1e-3);
  });

  test('files it writes are those that Node writes', async () => {
    const formats = ['png', 'tiff', 'webp', 'jpeg', 'avif'] as const;
    const { name, bytes } = FIXTURES.find((fixture) => fixture.name === 'full-colour.jpg')!;
    const file = await bytes();
    const { written } = await isolated.ask({ codec: 'full', name, bytes: base64(file), encode: formats });
    const { raster } = await codec.decode(file, { name });
    for (const format of formats) {
      const again = await codec.encode(raster, { format, quality: 95 });
      const expected = digest(await codec.decode(again, { name: `back.${format}` }));
      expect((written as Record<string, object>)[format]).toMatchObject(expected);
    }
  });

  test('what it hands over is what Node hands over', async () => {
    const size = { ...PRESETS.screen.size, width: 20, height: 20 };
    const settings: HandoverSettings[] = [
      { ...PRESETS.screen, size, space: 'display-p3', format: 'png', depth: 16, sharpen: 30 },
      {
        ...PRESETS.print,
        size,
        depth: 8,
        space: { profile: 'paper.icc', intent: 'relative', blackPoint: true },
      },
    ];
    const profile = (await vips()).Image.profileLoad('cmyk').slice();
    const { name, bytes } = FIXTURES.find((fixture) => fixture.name === 'full-colour.jpg')!;
    const file = await bytes();
    const { handed } = await isolated.ask({
      codec: 'full',
      name,
      bytes: base64(file),
      handOver: { settings, profile: base64(profile) },
    });
    const decoded = await codec.decode(file, { name });
    for (const [i, one] of settings.entries()) {
      const made = await writePicture(codec, decoded, EMPTY_RECIPE, one, { profile });
      const expected = digest(await codec.decode(made.bytes, { name: made.name }));
      expect((handed as object[])[i]).toMatchObject({ name: made.name, ...expected });
    }
  });

  test('trouble in words', async () => {
    const cut = green.subarray(0, 60);
    expect(await isolated.ask({ codec: 'full', name: 'cut.png', bytes: base64(cut) })).toMatchObject({
      sentence: expect.stringMatching(/cut off/),
    });
  });

  test('nothing broke the policy', () => {
    expect(isolated.complaints.filter((text) => /policy|trusted|eval/i.test(text))).toEqual([]);
  });
});

describe('a page that can’t share memory', () => {
  test('says that the full reader is not to be had', async () => {
    expect(await apart.ask({ codec: 'full', name: 'a.png', bytes: base64(green) })).toMatchObject({
      sentence: expect.stringMatching(/full picture reader/),
      todo: expect.stringMatching(/Reload/),
    });
  });

  const plain = FIXTURES.filter(
    ({ name, depth, channels }) => /png|jpg|webp/.test(name) && depth === 8 && channels === 3,
  );
  test.each(plain)('$name by the browser’s own decoder: the same code values', async ({ name, bytes }) => {
    const file = await bytes();
    const answer = await apart.ask({ codec: 'plain', name, bytes: base64(file) });
    const { notes, ...expected } = digest(await codec.decode(file, { name }));
    expect(notes).toEqual([]);
    expect(answer).toMatchObject({
      ...expected,
      notes: ['The browser’s own reader was used.'],
      canOpen: false,
    });
  });

  test('Display P3 green', async () => {
    const { first } = await apart.ask({ codec: 'plain', name: 'green.png', bytes: base64(green) });
    expect(farthest(first as number[], GREEN)).toBeLessThan(1e-3);
  });

  test('what it can’t read is said', async () => {
    const asked = async (name: string) => {
      const fixture = FIXTURES.find((f) => f.name === name)!;
      return apart.ask({ codec: 'plain', name, bytes: base64(await fixture.bytes()) });
    };
    expect(await asked('rgb-16.png')).toMatchObject({
      depth: 8,
      notes: [expect.anything(), expect.stringMatching(/16 bits/)],
    });
    expect(await asked('rgb-8.tif')).toMatchObject({ sentence: expect.stringMatching(/TIFF/) });
    const whole = await FIXTURES.find((f) => f.name === 'baseline.jpg')!.bytes();
    const cut = whole.subarray(0, whole.length / 2);
    expect(await apart.ask({ codec: 'plain', name: 'cut.jpg', bytes: base64(cut) })).toMatchObject({
      sentence: expect.stringMatching(/cut off/),
    });
  });
});

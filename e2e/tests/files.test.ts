import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { deflateSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { calm, folder, motley, paint } from '../house/pictures.ts';
import { type Check, goTo, notesOf, numbersOf, openPicture } from '../house/steps.ts';

const CLI = fileURLToPath(new URL('../../packages/cli/bin/halflight.js', import.meta.url));
const run = promisify(execFile);
const files = folder();
const app = house();

/** What the command line says of pictures, by their paths. */
async function checkInNode(paths: readonly string[]): Promise<Check[]> {
  const { stdout } = await run(process.execPath, [CLI, 'check', ...paths, '--json'], { maxBuffer: 2 ** 26 });
  return stdout
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Check);
}

/** Opens a picture after another one, from the shelf, so that its notes aren't mistaken for the last one's. */
async function openNext(page: Page, path: string): Promise<void> {
  await goTo(page, 'shelf');
  await openPicture(page, path);
}

const rgba = async (name: string, alpha: (i: number) => number): Promise<string> => {
  const { width, height, data } = motley;
  const out = new Uint8Array(4 * width * height);
  for (let p = 0; p < width * height; p++) {
    out.set(data.subarray(3 * p, 3 * p + 3), 4 * p);
    out[4 * p + 3] = alpha(p);
  }
  return files.bytes(
    name,
    await sharp(out, { raw: { width, height, channels: 4 } })
      .png()
      .toBuffer(),
  );
};

test('each kind of file gives the same numbers as in Node', async () => {
  const kinds: [string, () => Promise<string>][] = [
    ['PNG, 8 bit', () => files.picture('plain.png', motley)],
    ['PNG, 16 bit', () => files.picture('deep.png', motley, (it) => it.toColourspace('rgb16').png())],
    [
      'PNG with a palette',
      () => files.picture('palette.png', motley, (it) => it.png({ palette: true, colours: 64 })),
    ],
    [
      'PNG with transparency',
      () => rgba('clear.png', (p) => (p % 600 < 200 ? 0 : p % 600 < 400 ? 128 : 255)),
    ],
    ['PNG, grey', () => files.picture('grey.png', motley, (it) => it.toColourspace('b-w'))],
    ['Display P3', () => files.picture('p3.png', motley, (it) => it.withIccProfile('p3'))],
    ['JPEG, progressive', () => files.picture('photo.jpg', motley, (it) => it.jpeg({ progressive: true }))],
    [
      'JPEG, CMYK with profile',
      () => files.picture('cmyk.jpg', calm, (it) => it.toColourspace('cmyk').withIccProfile('cmyk').jpeg()),
    ],
    [
      'JPEG that stands on its side',
      () => files.picture('side.jpg', calm, (it) => it.withMetadata({ orientation: 6 }).jpeg()),
    ],
    ['WebP', () => files.picture('web.webp', motley, (it) => it.webp({ lossless: true }))],
    [
      'TIFF, 16 bit, LZW',
      () => files.picture('deep.tif', motley, (it) => it.toColourspace('rgb16').tiff({ compression: 'lzw' })),
    ],
    ['AVIF', () => files.picture('small.avif', calm, (it) => it.resize(300).avif({ lossless: true }))],
  ];
  const paths: string[] = [];
  for (const [, make] of kinds) paths.push(await make());
  const lines = await checkInNode(paths);
  const { page } = await app.open();
  for (const [index, [kind]] of kinds.entries()) {
    await openNext(page, paths[index]);
    const [here, there] = [await numbersOf(page), lines[index]];
    expect(here.picture, kind).toEqual(there.picture);
    expect(here.readings, kind).toEqual(there.readings);
    expect(here.findings, kind).toEqual(there.findings);
  }
});

/** A PNG that claims to be very large, with nothing in it. */
function hugePng(side: number): Uint8Array {
  const chunk = (type: string, body: Buffer): Buffer => {
    const head = Buffer.alloc(8);
    head.writeUInt32BE(body.length);
    head.write(type, 4, 'latin1');
    const tail = Buffer.alloc(4);
    tail.writeUInt32BE(crc(Buffer.concat([head.subarray(4), body])));
    return Buffer.concat([head, body, tail]);
  };
  const size = Buffer.alloc(13);
  size.writeUInt32BE(side, 0);
  size.writeUInt32BE(side, 4);
  size.set([8, 2, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk('IHDR', size),
    chunk('IDAT', deflateSync(Buffer.alloc(1000))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function crc(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (const byte of bytes) {
    value ^= byte;
    for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  }
  return (value ^ 0xffffffff) >>> 0;
}

describe('a bad file gets a sentence beside the list of works, and the app goes on', () => {
  const half = (bytes: Uint8Array): Uint8Array => bytes.subarray(0, bytes.length >> 1);
  const kinds: [string, () => Promise<string>, RegExp][] = [
    [
      'cut off',
      async () =>
        files.bytes(
          'cut.png',
          half(
            await sharp(await files.picture('w.png', motley))
              .png()
              .toBuffer(),
          ),
        ),
      /damaged or cut off/,
    ],
    ['empty', async () => files.bytes('empty.png', ''), /is empty/],
    ['a text', async () => files.bytes('notes.png', 'Buy more violet.'), /not a picture/],
    ['a text with another name', async () => files.bytes('notes.txt', 'Buy more violet.'), /not a picture/],
    ['too large', async () => files.bytes('huge.png', hugePng(30_000)), /megapixels .*the limit is/],
    [
      'a page',
      async () => files.bytes('page.svg', '<svg xmlns="http://www.w3.org/2000/svg"/>'),
      /not a picture|can’t be read|not a kind/,
    ],
  ];

  test('of any kind', async () => {
    const { page } = await app.open();
    for (const [kind, make, sentence] of kinds) {
      const path = await make();
      await goTo(page, 'shelf');
      await page.locator('input[type=file]').first().setInputFiles(path);
      const alert = page.getByRole('alert');
      await alert.waitFor();
      const text = (await alert.locator('p').first().textContent()) ?? '';
      expect(text, kind).toMatch(sentence);
      expect(text, kind).toContain(path.split('/').at(-1));
      expect(text, kind).not.toMatch(/Error|undefined|vips|at .*\.js/);
      // It goes on: the next picture opens.
      await openPicture(page, await files.picture('good.png', calm));
      await expect.poll(() => page.getByRole('alert').count(), { message: kind }).toBe(0);
    }
  });

  test('while another work is open: that one is still there', async () => {
    const { page } = await app.open();
    await openPicture(page, await files.picture('good.png', calm));
    await page.locator('input[type=file]').setInputFiles(files.bytes('bad.png', 'x'));
    await page.getByRole('alert').waitFor();
    await notesOf(page);
    await expect.poll(() => page.locator('h1').textContent()).toContain('Good');
  });

  test('among good ones: those are opened', async () => {
    const { page } = await app.open();
    const good = [await files.picture('one.png', calm), await files.picture('two.png', motley)];
    await page.locator('input[type=file]').setInputFiles([good[0], files.bytes('bad.png', 'x'), good[1]]);
    await page.locator('.row').nth(1).waitFor();
    await page.getByRole('alert').getByText('bad.png').waitFor();
    await expect.poll(() => page.locator('.row').count()).toBe(2);
  });
});

test('an odd but sound picture is read', async () => {
  const kinds: [string, () => Promise<string>][] = [
    [
      'one pixel',
      () =>
        files.picture(
          'one-pixel.png',
          paint(1, 1, () => [120, 90, 60]),
        ),
    ],
    [
      'all black',
      () =>
        files.picture(
          'black.png',
          paint(300, 200, () => [0, 0, 0]),
        ),
    ],
    [
      'all one colour',
      () =>
        files.picture(
          'flat.png',
          paint(300, 200, () => [90, 120, 160]),
        ),
    ],
    ['all transparent', () => rgba('nothing.png', () => 0)],
    [
      'very wide',
      () =>
        files.picture(
          'wide.png',
          paint(4000, 3, (x) => [255 * x, 120, 90]),
        ),
    ],
    [
      'of another kind than its name',
      async () =>
        files.bytes(
          'wrong.jpg',
          await sharp(await files.picture('r.png', calm))
            .png()
            .toBuffer(),
        ),
    ],
  ];
  const { page } = await app.open();
  for (const [kind, make] of kinds) {
    await openNext(page, await make());
    await expect
      .poll(() => page.locator('.margin').textContent(), { message: kind })
      .not.toMatch(/NaN|undefined|Infinity|null/);
    await page.getByRole('button', { name: 'Copy all numbers' }).waitFor();
  }
});

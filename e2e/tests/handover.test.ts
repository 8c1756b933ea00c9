import { readFileSync } from 'node:fs';
import { bytesSource, openOpenRaster } from '@halflight/files/openraster';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { expectClean } from '../house/axe.ts';
import { folder, motley, paint } from '../house/pictures.ts';
import { note, openNote, openPicture } from '../house/steps.ts';

const app = house();
const files = folder();

const SIZES = [
  [1024, 768],
  [820, 1180],
  [1440, 900],
] as const;

/** Presses something that saves, and reads what came. */
async function saved(page: Page, name: string): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name, exact: true }).click(),
  ]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

/** Adds a step to the edit. */
const add = async (page: Page, kind: string): Promise<void> => {
  const words = page.locator('.add-step');
  if (!(await words.evaluate((it) => (it as HTMLDetailsElement).open)))
    await words.locator('summary').click();
  await words.getByRole('button', { name: kind, exact: true }).click();
};

test('a picture is handed over: by keyboard to the screen, the file, the colours, the page, the table', async () => {
  const { page } = await app.open();
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, 'showSaveFilePicker');
  });
  await page.reload();
  page.setDefaultTimeout(60_000);
  await openPicture(page, await files.picture('evening.png', motley));
  await page.keyboard.press('h');
  await page.getByRole('heading', { name: 'Hand over' }).waitFor();
  await expect.poll(() => page.locator('.note h3').count()).toBe(4);
  await page.getByText('Nothing that can be seen is lost in sRGB.').waitFor();

  // The file: a preset, a value by the keyboard, a format; read by libvips.
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await page.getByLabel('How the picture fits').waitFor();
  const width = page.getByRole('spinbutton', { name: 'Width' });
  await width.focus();
  await page.keyboard.press('Enter');
  await page.getByRole('textbox', { name: 'Width' }).fill('300');
  await page.keyboard.press('Enter');
  await page.getByLabel('Format of the file').selectOption('png');
  await page.getByLabel('Author').fill('Ines Marlow');
  await expect
    .poll(() => page.locator('.note h3').first().textContent())
    .toContain('A PNG of 300 × 200 pixels');
  for (const [w, h] of SIZES) {
    await page.setViewportSize({ width: w, height: h });
    await expectClean(page);
  }
  const file = await saved(page, 'save the picture');
  expect(file.name).toBe('evening.png');
  const info = await sharp(file.bytes).metadata();
  expect([info.width, info.height, info.format]).toEqual([300, 200, 'png']);
  expect(info.xmp?.toString().includes('Ines Marlow')).toBe(true);
  // Nothing is offered that this browser can't do.
  const shares = await page.evaluate(() => 'canShare' in navigator);
  await expect.poll(() => page.getByRole('button', { name: 'share it' }).count()).toBe(shares ? 1 : 0);
  await page.locator('[data-done]').getByText('bytes checked').waitFor();

  // The colours: as a sheet and to copy.
  await openNote(page, /colours carry it/);
  await page.locator('.handover-palette li').first().waitFor();
  await expectClean(page);
  expect((await saved(page, 'as a sheet (SVG)')).bytes.toString()).toContain('<svg');
  expect(JSON.parse((await saved(page, 'as design tokens (JSON)')).bytes.toString())).toBeTypeOf('object');

  // The page: PDF made in the worker, and the picture for a chat.
  await openNote(page, 'A page about it');
  await expectClean(page);
  const pdf = await saved(page, 'save the page');
  expect(pdf.name).toBe('Evening report.pdf');
  expect(pdf.bytes.subarray(0, 5).toString()).toBe('%PDF-');
  await page.getByLabel('Whom the page is for').selectOption('student');
  await page.getByLabel('Format of the page').selectOption('png');
  const chat = await sharp((await saved(page, 'save the page')).bytes).metadata();
  expect(chat.width).toBe(1080);
  await page.getByLabel('Format of the page').selectOption('html');
  const html = await saved(page, 'save the page');

  // An edit brings the table.
  await page.keyboard.press('e');
  await page.getByRole('heading', { name: 'Edit' }).waitFor();
  await add(page, 'exposure');
  await page.keyboard.press('h');
  await note(page, 'The edit as a table').waitFor();
  await openNote(page, 'The edit as a table');
  expect((await saved(page, 'as a lookup table (CLF)')).bytes.toString()).toContain('<ProcessList');

  // The page by itself, on its own: clean, and it asks for nothing.
  await page.goto('about:blank');
  await page.setContent(html.bytes.toString());
  await expectClean(page);
});

/** Strong greens and reds of Display P3 on a quiet evening. */
const strong = paint(480, 320, (x, y) => {
  if (y > 0.4 && y < 0.6) return x < 0.3 ? [20, 250, 30] : x < 0.5 ? [250, 20, 30] : [60, 70, 110];
  return [70 + 60 * y, 80 + 40 * y, 120 + 20 * y];
});

/** The picture above as a JPEG whose codes are those of Display P3, with a maker and a place. */
async function displayP3(): Promise<Buffer> {
  const { data, width, height } = strong;
  const jpeg = await sharp(data, { raw: { width, height, channels: 3 } })
    .withExif({ IFD0: { Make: 'Example' }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '54/1 3/1 0/1' } })
    .jpeg({ quality: 100, chromaSubsampling: '4:4:4' })
    .toBuffer();
  const { icc } = await sharp(await sharp(jpeg).withIccProfile('p3').png().toBuffer()).metadata();
  // ICC.1:2022 annex B.4: an APP2 segment with a name, its number and how many there are.
  const head = Buffer.from('ICC_PROFILE\0\x01\x01', 'latin1');
  const length = Buffer.alloc(2);
  length.writeUInt16BE(2 + head.length + icc!.length);
  return Buffer.concat([
    jpeg.subarray(0, 2),
    Buffer.from([0xff, 0xe2]),
    length,
    head,
    icc!,
    jpeg.subarray(2),
  ]);
}

/** The page's own files stand for a dialog's, and what would be shared is only remembered. */
function stubDialogs(): void {
  const own = window as unknown as Record<string, unknown> & { shared: string[] };
  own.shared = [];
  own.showSaveFilePicker = async ({ suggestedName }: { suggestedName: string }) =>
    (await navigator.storage.getDirectory()).getFileHandle(suggestedName, { create: true });
  Object.assign(navigator, {
    canShare: () => true,
    share: async ({ files }: { files: File[] }) => {
      own.shared.push(...files.map(({ name, type }) => `${name} ${type}`));
    },
  });
}

/** Saves into the page's own files and reads what stands there. */
async function savedInside(page: Page, button: string, name: string): Promise<Buffer> {
  await page.getByRole('button', { name: button, exact: true }).click();
  await page.locator('[data-done]').getByText(`“${name}” was saved`).waitFor();
  await page.locator('[data-done]').getByText('saved file checked').waitFor();
  const codes = await page.evaluate(async (name) => {
    const handle = await (await navigator.storage.getDirectory()).getFileHandle(name);
    return [...new Uint8Array(await (await handle.getFile()).arrayBuffer())];
  }, name);
  return Buffer.from(codes);
}

test('what a space and a paper lose is seen and calmed; a saved file is read from its place; the place of the picture goes', async () => {
  const { page } = await app.open();
  await page.addInitScript(stubDialogs);
  await page.reload();
  page.setDefaultTimeout(60_000);
  const path = files.bytes('strong.jpg', await displayP3());
  await openPicture(page, path);
  await page.keyboard.press('h');

  // Display P3 to sRGB.
  await note(page, /% of the picture loses colour in sRGB/).waitFor();
  await openNote(page, 'loses colour in sRGB');
  await page.getByRole('button', { name: 'find the smallest step that calms exactly these colours' }).click();
  await page.getByRole('button', { name: 'take it into the edit' }).click();
  await page.getByText('Nothing that can be seen is lost in sRGB.').waitFor();

  // The edit is recorded step by step.
  await openNote(page, 'How it came to be');
  await page.getByLabel('Size of the animation').selectOption('480');
  await expectClean(page);
  const film = await savedInside(page, 'save it', 'Strong edit.webp');
  const { pages = 1, delay, width } = await sharp(film, { animated: true }).metadata();
  expect(pages).toBeGreaterThanOrEqual(2);
  expect(new Set(delay)).toEqual(new Set([1200]));
  expect(width).toBe(480);
  await page.getByLabel('Format of the record').selectOption('png');
  expect(
    (await sharp(await savedInside(page, 'save it', 'Strong edit.png')).metadata()).width,
  ).toBeGreaterThan(900);

  // The file: with what its picture says but its place; shared only where that is possible, as here.
  await openNote(page, /A JPEG of 480 × 320/);
  await page.getByLabel('Data beside the pixels').selectOption('others');
  const exif = (await sharp(await savedInside(page, 'save the picture', 'strong.jpg')).metadata()).exif!;
  expect(exif.toString('latin1')).toContain('Example');
  // The tag of the directory of positions, in either byte order.
  for (const tag of [
    [0x88, 0x25],
    [0x25, 0x88],
  ])
    expect(exif.includes(Buffer.from(tag))).toBe(false);
  await page.getByRole('button', { name: 'share it' }).click();
  await expect
    .poll(() => page.evaluate(() => (window as unknown as { shared: string[] }).shared))
    .toEqual(['strong.jpg image/jpeg']);

  // For further work, in layers: the picture as painted, and the step that calms over it.
  await page.getByLabel('What the file is for').selectOption('layered');
  await page.getByText('In layers it is as large as it was painted').waitFor();
  const ora = new Uint8Array(await savedInside(page, 'save the picture', 'strong layered.ora'));
  const layers = await openOpenRaster(bytesSource(ora, 'strong layered.ora'));
  expect([layers.width, layers.height, layers.nodes.length]).toEqual([480, 320, 2]);
  expect(layers.nodes[0].name).toBe('As painted');
  await page.getByLabel('What the file is for').selectOption('screen');

  // The inks of a paper: the library's own profile of coated paper, which sharp attaches.
  const inks = await sharp({ create: { width: 1, height: 1, channels: 3, background: '#fff' } })
    .withIccProfile('cmyk')
    .tiff()
    .toBuffer();
  const { icc } = await sharp(inks).metadata();
  await page.getByLabel('Format of the file').selectOption('tiff');
  await page
    .locator('input[aria-label="Profile file"]')
    .setInputFiles({ name: 'paper.icc', mimeType: 'application/vnd.iccprofile', buffer: icc! });
  await note(page, /in the profile “paper.icc”/)
    .first()
    .waitFor();
  const tiff = await savedInside(page, 'save the picture', 'strong.tif');
  const printed = await sharp(tiff).metadata();
  expect([printed.space, printed.channels]).toEqual(['cmyk', 4]);
  expect(printed.icc?.equals(icc!)).toBe(true);
  await note(page, /loses? colour in the profile|is lost in the profile/).waitFor();
  // The step that calms works in some hues only, which no table can hold.
  await openNote(page, 'The edit as a table');
  await page.getByText('Nothing is left that a table could hold.').waitFor();
});

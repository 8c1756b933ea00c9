import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { expectClean } from '../house/axe.ts';
import { folder, motley } from '../house/pictures.ts';
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
  expect(await page.locator('.note h3').first().textContent()).toContain('A PNG of 300 × 200 pixels');
  for (const [w, h] of SIZES) {
    await page.setViewportSize({ width: w, height: h });
    await expectClean(page);
  }
  const file = await saved(page, 'save the picture');
  expect(file.name).toBe('evening.png');
  const info = await sharp(file.bytes).metadata();
  expect([info.width, info.height, info.format]).toEqual([300, 200, 'png']);
  expect(info.xmp?.toString().includes('Ines Marlow')).toBe(true);
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

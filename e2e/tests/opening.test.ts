import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { type App, house } from '../house/app.ts';
import { hand } from '../house/hand.ts';
import { calm, folder, motley } from '../house/pictures.ts';
import { chooserBy, goTo, note, notesOf, openPicture, still } from '../house/steps.ts';

const files = folder();
const ferry = await files.picture('ferry_landing.png', motley);
const other = await files.picture('barn.png', calm);
const app = house({ demo: { 'ferry-landing-1.png': other, 'ferry-landing-2.png': ferry } });

describe('a picture comes in', () => {
  describe('of a work that is there, or is new', () => {
    let page: App['page'];
    beforeAll(async () => {
      page = (await app.open({ keep: true })).page;
      await page.locator('.empty').waitFor();
    });

    test.each<[string, () => Promise<void>]>([
      ['by the file chooser', () => openPicture(page, ferry)],
      [
        'by the chooser that Ctrl O opens',
        async () => (await chooserBy(page, () => page.keyboard.press('Control+o'))).setFiles(ferry),
      ],
      ['by a drop', () => hand(page, 'drop', [ferry])],
      ['by a paste from the keyboard', () => hand(page, 'paste', [ferry])],
    ])('%s', async (_way, come) => {
      await come();
      await notesOf(page);
      await expect.poll(() => page.locator('h1').textContent()).toBe('Ferry landing · version 1');
      await note(page, /hues? compete|hues/)
        .first()
        .waitFor();
      await goTo(page, 'shelf');
      await expect.poll(() => page.locator('.row').count()).toBe(1);
    });
  });

  test('by the paste button, from the clipboard', async () => {
    const { page, context } = await app.open();
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await page.evaluate(
      async (bytes) => {
        const blob = new Blob([new Uint8Array(bytes)], { type: 'image/png' });
        await navigator.clipboard.write([new ClipboardItem({ 'image/png': blob })]);
      },
      [...readFileSync(ferry)],
    );
    await page.getByRole('button', { name: 'paste one' }).click();
    await notesOf(page);
    await expect.poll(() => page.locator('h1').textContent()).toBe('Pasted picture · version 1');
    // A clipboard drops the profile; the page says what it assumed.
    await page.getByText(/sRGB/).first().waitFor();
  });

  test('from the demo', async () => {
    const { page } = await app.open();
    await page.getByRole('button', { name: 'Open Ferry landing, version 2' }).click();
    await notesOf(page);
    await expect.poll(() => page.locator('h1').textContent()).toBe('Ferry landing · version 2');
  });

  test('with others: they go onto the shelf', async () => {
    const { page } = await app.open();
    await hand(page, 'drop', [ferry, other]);
    await page.locator('.row').nth(1).waitFor();
    await expect.poll(() => page.locator('.row-title').allTextContents()).toEqual(['Barn', 'Ferry landing']);
    await page.locator('.row-open', { hasText: 'Ferry landing' }).click();
    await notesOf(page);
  });

  test('a second time: its work goes on instead of a new one', async () => {
    const { page } = await app.open();
    await openPicture(page, ferry);
    await page.getByRole('button', { name: 'Open another picture' }).waitFor();
    await openPicture(page, ferry);
    // The page goes to the work by itself when it is read: the shelf is looked at until it stays.
    await expect
      .poll(async () => {
        await goTo(page, 'shelf');
        return still(() => page.locator('.row').count());
      })
      .toBe(1);
  });
});

test('the paste button without a picture on the clipboard says so', async () => {
  const { page, context } = await app.open();
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.evaluate(() => navigator.clipboard.writeText('no picture'));
  await page.getByRole('button', { name: 'paste one' }).click();
  await page.getByRole('alert').getByText('There is no picture on the clipboard.').waitFor();
});

test('opening can be stopped, and what was there before comes back', async () => {
  const { page } = await app.open();
  await openPicture(page, other);
  const large = await files.picture('large.png', calm, (image) =>
    image.resize(9000, 7000, { kernel: 'nearest' }).png({ compressionLevel: 1 }),
  );
  await page.locator('input[type=file]').first().setInputFiles(large);
  await page.getByRole('button', { name: 'Stop' }).click();
  await notesOf(page);
  await expect.poll(() => page.locator('h1').textContent()).toContain('Barn');
});

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { demoPictures } from '../house/demo.ts';
import { note, notesOf } from '../house/steps.ts';

const demo = demoPictures();
const app = house({ demo });
const GUIDE = readFileSync(
  fileURLToPath(new URL('../../docs/guide/first-picture.md', import.meta.url)),
  'utf8',
);

/** Goes on with Tab until something that is called so has the focus: nothing is pointed at. */
async function tabTo(page: Page, name: RegExp, back = false): Promise<void> {
  for (let steps = 0; steps < 150; steps++) {
    await page.keyboard.press(back ? 'Shift+Tab' : 'Tab');
    const at = await page.evaluate(() => {
      const { activeElement: it } = document;
      return it?.getAttribute('aria-label') ?? it?.textContent ?? '';
    });
    if (name.test(at)) return;
  }
  throw new Error(`Nothing that is called ${name} was reached.`);
}

async function press(page: Page, name: RegExp): Promise<void> {
  await tabTo(page, name);
  await page.keyboard.press('Enter');
}

test('the first picture in five minutes, as the guide has it, by keyboard alone, ends with a file', async () => {
  expect(Object.keys(demo).length, 'paint the demo first: npm start -- --once').toBeGreaterThan(0);
  const { page } = await app.open();
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, 'showSaveFilePicker');
  });
  await page.reload();
  page.setDefaultTimeout(120_000);
  const begun = Date.now();

  // 1. Open.
  await page.locator('.empty').waitFor();
  await press(page, /^Open Ferry landing, version 3$/);
  await notesOf(page);

  // 2. Read the notes: those that the guide names are there.
  for (const named of ['Four hues compete', 'Darks are closed']) {
    expect(GUIDE).toContain(`*${named}*`);
    await note(page, named).first().waitFor();
  }
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await page.locator('.note[data-open] .answers').waitFor();
  for (const answer of ['will do', 'meant so', 'wrong'])
    await expect
      .poll(() => page.locator('.note[data-open] .answers').getByText(answer, { exact: true }).count())
      .toBe(1);
  await press(page, /^will do$/);
  await page.locator('.note[data-open]').getByText('You will do this').first().waitFor();

  // 3. Decide the mood, by the sentence at the end of the margin.
  await press(page, /^nothing is decided yet$/i);
  await page.locator('.part-title').first().waitFor();
  await press(page, /^melancholy$/);
  await press(page, /^still$/);
  await page.locator('.axis[data-decided]').first().waitFor();
  await press(page, /^The hue plan is left open\./);
  await press(page, /^take those the picture has$/);

  // 4. Edit: the smallest one, a number changed, the picture before.
  await page.keyboard.press('Escape');
  await page.keyboard.press('e');
  await page.getByRole('heading', { name: 'Edit' }).waitFor();
  await press(page, /^propose the smallest edit$/);
  await page.locator('.step').first().waitFor();
  await page.locator('.proposal p').first().waitFor();
  const value = page.locator('.step [role=spinbutton]').first();
  const was = await value.getAttribute('aria-valuenow');
  const label = await value.getAttribute('aria-label');
  await tabTo(page, new RegExp(`^${label}$`));
  await page.keyboard.press('ArrowLeft');
  await expect.poll(() => value.getAttribute('aria-valuenow')).not.toBe(was);
  await page.keyboard.down('b');
  await page.keyboard.up('b');

  // 5. Stand back: nothing but the picture, then the questions.
  await page.keyboard.press('l');
  await page.getByRole('button', { name: 'Begin the look' }).waitFor();
  await press(page, /^Begin the look$/);
  await page.locator('.quiet-look').waitFor();
  await page.keyboard.press('Escape');
  await page.getByText('Where did the eye go first?').waitFor();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await press(page, /^mostly there$/);
  await press(page, /^nothing did$/);
  await press(page, /^it is done$/);

  // 6. Hand over: the file is saved, read back here too, and is the picture at full size.
  await page.keyboard.press('h');
  await page.getByRole('heading', { name: 'Hand over' }).waitFor();
  await expect.poll(() => page.locator('.note h3').count()).toBeGreaterThan(3);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await page.getByLabel('How the picture fits').waitFor();
  const coming = page.waitForEvent('download');
  await press(page, /^save the picture$/);
  const download = await coming;
  await page.locator('[data-done]').getByText('bytes checked').waitFor();
  const seconds = (Date.now() - begun) / 1000;
  console.log(`the first picture was delivered after ${seconds.toFixed(0)} s of the machine's time`);
  const bytes = readFileSync(await download.path());
  const { width, height, format } = await sharp(bytes).metadata();
  expect([width, height, format]).toEqual([2400, 1500, 'jpeg']);
  const [painted, delivered] = await Promise.all(
    [readFileSync(demo['ferry-landing-3.png']), bytes].map((it) =>
      sharp(it).resize(60, 38, { fit: 'fill' }).removeAlpha().raw().toBuffer(),
    ),
  );
  const apart = painted.reduce((sum, code, at) => sum + Math.abs(code - delivered[at]), 0) / painted.length;
  // The same painting, and edited: neither another one nor the same bytes.
  expect(apart).toBeGreaterThan(0.3);
  expect(apart).toBeLessThan(40);
  // What was done is on the shelf.
  await page.keyboard.press('s');
  await page.locator('.row').waitFor();
  await expect.poll(() => page.locator('.row').count()).toBe(1);
}, 600_000);

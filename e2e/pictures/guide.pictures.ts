import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchOptions } from '../house/app.ts';
import { demoPictures } from '../house/demo.ts';
import { type Host, host } from '../house/server.ts';
import { goTo, notesOf, openNote } from '../house/steps.ts';

/** One picture for each page of the guide. */
const DOCS = fileURLToPath(new URL('../../docs/guide/pictures/', import.meta.url));

let server: Host;
let browser: Browser;
const demo = demoPictures();

beforeAll(async () => {
  expect(Object.keys(demo).length, 'paint the demo first: npm start -- --once').toBeGreaterThan(0);
  const twelve = `${dirname(demo['ferry-landing-5.png'])}/class/`;
  const works = existsSync(twelve) ? readdirSync(twelve) : [];
  server = await host({
    demo: { ...demo, ...Object.fromEntries(works.map((file) => [`class/${file}`, `${twelve}${file}`])) },
  });
  browser = await chromium.launch(launchOptions());
  mkdirSync(DOCS, { recursive: true });
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

async function shot(page: Page, name: string): Promise<void> {
  await page.mouse.move(3, 3);
  await page.evaluate(async () => {
    await document.fonts.ready;
    await Promise.all([...document.images].map((image) => image.decode().catch(() => undefined)));
  });
  await page.waitForTimeout(1500);
  await sharp(await page.screenshot())
    .resize(1200)
    .webp({ quality: 82 })
    .toFile(`${DOCS}${name}.webp`);
}

test('the screens of one work', async () => {
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(server.address);
  await page.getByRole('button', { name: 'Open Ferry landing, version 3' }).click();
  await notesOf(page);
  await page.getByRole('button', { name: 'Understood' }).click();
  await openNote(page, /hues compete/);
  await shot(page, 'check');
  await goTo(page, 'intent');
  await page.getByRole('button', { name: 'melancholy' }).click();
  await page.getByRole('button', { name: 'still', exact: true }).click();
  await openNote(page, 'The hue plan is left open.');
  await page.getByRole('button', { name: 'take those the picture has' }).click();
  await shot(page, 'intent');
  await goTo(page, 'check');
  await page.keyboard.press('e');
  await page.getByRole('button', { name: 'propose the smallest edit' }).click();
  await page.locator('.step').first().waitFor({ timeout: 120_000 });
  await page.locator('.canvas[data-sharp]').last().waitFor();
  await shot(page, 'rework');
  await goTo(page, 'check');
  await page.keyboard.press('h');
  await page.getByRole('heading', { name: 'Hand over' }).waitFor();
  await page.locator('.note h3').nth(3).waitFor();
  await page.locator('.note h3 button').first().click();
  await shot(page, 'hand-over');
  await goTo(page, 'check');
  await page.locator('input[type=file]').first().setInputFiles(demo['ferry-landing-4.png']);
  await expect.poll(() => page.locator('h1').textContent()).toContain('version 4');
  await notesOf(page);
  await page.locator('input[type=file]').first().setInputFiles(demo['ferry-landing-5.png']);
  await expect.poll(() => page.locator('h1').textContent()).toContain('version 5');
  await notesOf(page);
  const clause = (words: RegExp) =>
    page.getByRole('navigation', { name: 'The way around' }).getByRole('button', { name: words }).click();
  await clause(/versions/);
  await page.locator('.part-title').first().waitFor();
  await shot(page, 'progress');
  await goTo(page, 'check');
  await clause(/quiet look/);
  await shot(page, 'stand-back');
  await goTo(page, 'shelf');
  await page.getByRole('button', { name: 'Open Ferry landing, version 1' }).click();
  await notesOf(page);
  await goTo(page, 'shelf');
  await shot(page, 'shelf');
});

test('a picture in layers', async () => {
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(`${server.address}#/layers`);
  const layered = `${dirname(demo['ferry-landing-4.png'])}/ferry-landing-4.ora`;
  await page.getByLabel('Layered file, or layers as PNGs').setInputFiles(layered);
  await page.getByText('Eleven layers can be written as seven.').waitFor({ timeout: 120_000 });
  await page.locator('[data-layer="evening gradient"] .tree-row').click();
  await shot(page, 'thin-out');
});

test('many works, and finished ones', async () => {
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(server.address);
  await page.getByRole('button', { name: 'Read a class' }).click();
  await page.getByRole('button', { name: 'take the class of twelve' }).click();
  await page.getByText('Twelve works are here; two could not be read.').waitFor({ timeout: 170_000 });
  await shot(page, 'class');
  await page.evaluate(() => {
    location.hash = '#/baseline';
  });
  await page.locator('[data-heading]').waitFor();
  await page.getByLabel('Finished works', { exact: true }).setInputFiles(Object.values(demo));
  await page
    .getByText(/five of your finished works/i)
    .first()
    .waitFor({ timeout: 120_000 });
  await shot(page, 'baseline');
});

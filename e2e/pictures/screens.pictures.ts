import { mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchOptions } from '../house/app.ts';
import { demoPictures } from '../house/demo.ts';
import { folder, motley } from '../house/pictures.ts';
import { type Host, host } from '../house/server.ts';
import { goTo, notesOf, openNote, openPicture } from '../house/steps.ts';
import { eachScreen } from '../house/walk.ts';

/** Every screen at every size goes to SCREENS (or a folder for temporary files); what the README shows, to docs. */
const OUT = process.env.SCREENS ?? join(tmpdir(), 'halflight-screens');
const DOCS = fileURLToPath(new URL('../../docs/pictures/', import.meta.url));
const SIZES = [
  { name: '1440', viewport: { width: 1440, height: 900 }, hasTouch: false },
  { name: '1024', viewport: { width: 1024, height: 768 }, hasTouch: false },
  { name: '820', viewport: { width: 820, height: 1180 }, hasTouch: true },
] as const;

const files = folder();
const broken = files.bytes('sketch.png', 'not a picture');
let server: Host;
let browser: Browser;

beforeAll(async () => {
  const demo = demoPictures();
  expect(Object.keys(demo).length, 'paint the demo first: npm start -- --once').toBeGreaterThan(0);
  server = await host({ demo });
  browser = await chromium.launch(launchOptions());
  mkdirSync(OUT, { recursive: true });
  mkdirSync(DOCS, { recursive: true });
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

test.each(SIZES)('screens at $name', async ({ name, ...size }) => {
  const page = await (await browser.newContext(size)).newPage();
  const shot = async (state: string, path = `${OUT}/${name}-${state}.png`): Promise<void> => {
    await still(page);
    await page.screenshot({ path });
  };
  await page.goto(server.address);
  await page.locator('.empty').waitFor();
  await shot('empty');
  await page.getByRole('button', { name: 'Open Ferry landing, version 3' }).click();
  await notesOf(page);
  await shot('notes');
  await page.getByRole('button', { name: 'Understood' }).click();
  const notes = page.locator('.notes-part .note h3 button');
  for (let index = 0; index < (await notes.count()); index++) {
    await notes.nth(index).click();
    await page.mouse.move(3, 3);
    await page.waitForTimeout(1500);
    await shot(`note-${index + 1}`);
    if (name === '1440' && index === 0) await shot('readme', `${DOCS}check.png`);
  }
  await page.locator('.group > summary').first().click();
  const fine = page.locator('.rest-part .note h3 button');
  for (let index = 0; index < (await fine.count()); index++) {
    await fine.nth(index).click();
    await page.mouse.move(3, 3);
    await shot(`fine-${index + 1}`);
  }
  const stage = await page.locator('.stage').boundingBox();
  if (stage) await page.mouse.click(stage.x + stage.width * 0.62, stage.y + stage.height * 0.45);
  await page.locator('.note[data-note=place] .place-read').waitFor();
  await page.mouse.move(3, 3);
  await shot('place');
  await goTo(page, 'intent');
  await page.getByRole('button', { name: 'melancholy' }).click();
  await page.getByRole('button', { name: 'still', exact: true }).click();
  await page.locator('.axis[data-decided]').first().waitFor();
  await page.mouse.move(3, 3);
  await shot('intent-mood');
  await openNote(page, 'The hue plan is left open.');
  await page.getByRole('button', { name: 'take those the picture has' }).click();
  await page.mouse.move(3, 3);
  await shot('intent-hue');
  await openNote(page, /delivery/);
  await shot('intent-delivery');
  await goTo(page, 'check');
  await shot('notes-decided');
  await page.keyboard.press('?');
  await shot('keys');
  await page.keyboard.press('Escape');
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'sketch.png', mimeType: '', buffer: Buffer.from('x') });
  await page.getByRole('alert').waitFor();
  await notesOf(page);
  await shot('bad-file');
  await goTo(page, 'shelf');
  await page.getByRole('button', { name: 'Open Ferry landing, version 5' }).click();
  await notesOf(page);
  await goTo(page, 'shelf');
  await shot('shelf');
});

test.each(SIZES)('every screen, empty, loading, full and in trouble, at $name', async ({ name, ...size }) => {
  const demo = demoPictures();
  const page = await (await browser.newContext(size)).newPage();
  page.setDefaultTimeout(90_000);
  const shot = async (state: string): Promise<void> => {
    await still(page);
    await page.screenshot({ path: `${OUT}/${name}-all-${state.replaceAll(' ', '-')}.png` });
  };
  await page.goto(server.address);
  await eachScreen(page, [demo['ferry-landing-3.png'], demo['ferry-landing-4.png']], shot);

  // A class and finished works, while they are read and after it.
  const works = Object.values(demo);
  await page.evaluate(() => {
    location.hash = '#/baseline';
  });
  await page.getByLabel('Finished works', { exact: true }).setInputFiles(works);
  await page.waitForTimeout(700);
  await shot('baseline loading');
  await page
    .getByText(/five of your finished works/i)
    .first()
    .waitFor();
  await shot('baseline full');
  await page.evaluate(() => {
    location.hash = '#/class';
  });
  await page
    .getByLabel('Works of the class', { exact: true })
    .first()
    .setInputFiles([...works, broken]);
  await page.waitForTimeout(700);
  await shot('class loading');
  await page
    .getByText(/could not be read/)
    .first()
    .waitFor();
  await page.locator('.plane .stop img').nth(4).waitFor();
  await shot('class full');
  await page.locator('.plane .stop').first().click();
  await page.locator('h1').waitFor();
  await shot('critique');
});

test.each(SIZES)('waiting and trouble at $name', async ({ name, ...size }) => {
  const page = await (await browser.newContext(size)).newPage();
  const shot = (state: string) => page.screenshot({ path: `${OUT}/${name}-all-${state}.png` });
  // A decoder that does not come: the page waits, and can be stopped.
  await page.route(/\.wasm$/, () => undefined);
  await page.goto(server.address);
  await page.locator('.empty').waitFor();
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles(await files.picture('ferry.png', motley));
  await page.locator('.opening progress').waitFor();
  await page.waitForTimeout(1500);
  await shot('loading');
  await page.unrouteAll();
  await page.reload();
  await page.locator('.empty').waitFor();
  await page.locator('input[type=file]').first().setInputFiles(broken);
  await page.getByRole('alert').waitFor();
  await shot('trouble-empty');
  await openPicture(page, await files.picture('again.png', motley));
  await page.locator('input[type=file]').first().setInputFiles(broken);
  await page.getByRole('alert').waitFor();
  // The work that was open is opened again.
  await page.locator('.notes-part').waitFor({ state: 'detached' });
  await notesOf(page);
  await shot('trouble-full');
});

/** Until nothing moves: pictures are there, and the last veil has come in. */
async function still(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await document.fonts.ready;
    await Promise.all([...document.images].map((image) => image.decode().catch(() => undefined)));
  });
  await page.waitForTimeout(400);
}

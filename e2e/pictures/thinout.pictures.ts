import { mkdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { bytesSource, type OpenRaster, openOpenRaster, type StoredLayer } from '@halflight/files/openraster';
import { type Browser, chromium } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchOptions } from '../house/app.ts';
import { demoPictures } from '../house/demo.ts';
import { type Host, host } from '../house/server.ts';
import { openNote } from '../house/steps.ts';

/** Thin out in each of its states at every size, in SCREENS or a folder for temporary files. */
const OUT = process.env.SCREENS ?? join(tmpdir(), 'halflight-screens');
const SIZES = [
  { name: '1440', viewport: { width: 1440, height: 900 }, hasTouch: false },
  { name: '1024', viewport: { width: 1024, height: 768 }, hasTouch: false },
  { name: '820', viewport: { width: 820, height: 1180 }, hasTouch: true },
] as const;

let server: Host;
let browser: Browser;
let path: string;
let file: OpenRaster;

beforeAll(async () => {
  const demo = demoPictures();
  expect(Object.keys(demo).length, 'paint the demo first: npm start -- --once').toBeGreaterThan(0);
  path = join(dirname(demo['ferry-landing-4.png']), 'ferry-landing-4.ora');
  file = await openOpenRaster(bytesSource(new Uint8Array(readFileSync(path)), 'ferry-landing-4.ora'));
  server = await host({ demo });
  browser = await chromium.launch(launchOptions());
  mkdirSync(OUT, { recursive: true });
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

const given = (name: string, bytes: Uint8Array) => ({
  name,
  mimeType: 'image/png',
  buffer: Buffer.from(bytes),
});

/** A layer of the demo as a picture of its own. */
async function layer(name: string) {
  const node = file.nodes.find((one) => one.name === name) as StoredLayer;
  return given(`${name}.png`, await file.layer(node));
}

/** A painted spot on the canvas. */
async function spot(name: string, left: number, colour: string) {
  const size = { width: 220, height: 160, channels: 4 } as const;
  const input = await sharp({ create: { ...size, background: colour } })
    .png()
    .toBuffer();
  const { width, height } = file;
  const canvas = { width, height, channels: 4, background: '#0000' } as const;
  return given(
    `${name}.png`,
    await sharp({ create: canvas })
      .composite([{ input, left, top: 900 }])
      .png()
      .toBuffer(),
  );
}

test.each(SIZES)('Thin out at $name', async ({ name, ...size }) => {
  const page = await (await browser.newContext(size)).newPage();
  page.setDefaultTimeout(90_000);
  const shot = async (state: string): Promise<void> => {
    await page.mouse.move(3, 3);
    await page.waitForTimeout(500);
    await page.screenshot({ path: `${OUT}/${name}-thin-${state}.png` });
  };
  const toLayers = async (): Promise<void> => {
    await page.evaluate(() => {
      location.hash = '#/layers';
    });
    await page.getByText('Here hangs a picture that came in layers').waitFor();
  };
  await page.goto(server.address);
  await toLayers();
  await shot('empty');
  const chooser = page.getByLabel('Layered file, or layers as PNGs');
  await chooser.setInputFiles([given('sketch.png', Buffer.from('no picture')), await layer('painting')]);
  await page.getByRole('alert').waitFor();
  await shot('trouble');
  await page.getByRole('button', { name: 'I have read it' }).click();

  // Pictures, arranged; made one for a look.
  await chooser.setInputFiles([
    await layer('painting'),
    await spot('crate', 700, '#39424a'),
    await spot('barrel', 1100, '#4a3f39'),
    await layer('mist near'),
    given('flat export.png', (await file.merged())!),
  ]);
  await page.getByLabel('The picture of all layers together').selectOption('flat export');
  await page.getByText(/Against “flat export”, /).waitFor();
  await page.getByLabel('Mode of mist near').selectOption('screen');
  await page.getByRole('button', { name: 'weigh these layers' }).waitFor();
  await shot('arranged');
  await page.getByRole('button', { name: 'weigh these layers' }).click();
  await page.locator('[data-weighed]').waitFor();
  await page.locator('[data-layer=barrel] .tree-row').click();
  await page.getByRole('button', { name: 'look at them as one' }).click();
  await page.getByText('as one layer', { exact: true }).waitFor();
  await page.locator('[data-layer=barrel]').scrollIntoViewIfNeeded();
  await shot('merge');

  // The layered file.
  await page.reload();
  await toLayers();
  await chooser.setInputFiles(path);
  await page
    .getByText(/, \d of 11/)
    .first()
    .waitFor();
  await page.screenshot({ path: `${OUT}/${name}-thin-reading.png` });
  await page.locator('[data-weighed]').waitFor();
  await shot('weighed');
  await page.locator('[data-layer="mist near"] .tree-row').click();
  await page.locator('[data-layer="mist near"]').scrollIntoViewIfNeeded();
  await shot('layer');
  await page.getByRole('button', { name: 'see its hue and strength' }).click();
  await page.locator('.option[aria-disabled=false]').nth(27).waitFor();
  await shot('sweep');
  await page.getByRole('button', { name: 'Leave it as it is' }).click();
  await openNote(page, /one is to be chosen/);
  await shot('choice');
  await page.locator('.note[data-open]').getByRole('button', { name: 'see them side by side' }).click();
  await page.locator('.option[aria-disabled=false]').nth(1).waitFor();
  await shot('options');
  await page.getByRole('button', { name: 'Leave it open' }).click();
  await openNote(page, /can be written as/);
  await page.getByRole('radio').first().waitFor();
  await shot('plan');
});

import { readdirSync, readFileSync } from 'node:fs';
import { loadavg } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { test } from 'vitest';
import { house } from '../house/app.ts';
import { folder } from '../house/pictures.ts';
import { openPicture } from '../house/steps.ts';

/** Megapixels of the pictures, three to two, and how long each state may settle. */
const SIZES = (process.env.HALFLIGHT_MEGAPIXELS ?? '6 24').split(' ').map(Number);
const REST = 6000;
const files = folder();
const app = house();

/** Ramps with grain at 16 bit, which deflate only little: a file of nearly the size of its pixels. */
async function painting(megapixels: number): Promise<string> {
  const height = Math.round(Math.sqrt((megapixels * 1e6) / 1.5));
  const width = Math.round(1.5 * height);
  const data = new Uint16Array(3 * width * height);
  let state = 7;
  for (let p = 0; p < width * height; p++) {
    const [x, y] = [(p % width) / width, p / width / height];
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const grain = 3000 * (state / 2 ** 32 - 0.5);
    const wave = 9000 * Math.sin(9 * x + 4 * y) * Math.sin(7 * y - 3 * x);
    data.set([15000 + 23000 * x + wave + grain, 18000 + 18000 * y + wave + grain], 3 * p);
    data[3 * p + 2] = 38000 - 15000 * y + wave - grain;
  }
  const path = join(files.path, `ferry-${megapixels}.png`);
  const image = sharp(data, { raw: { width, height, channels: 3 } }).toColourspace('rgb16');
  await image.png({ compressionLevel: 3 }).toFile(path);
  return path;
}

/** Resident memory of the largest page of this browser in MB (10⁶ bytes), as Linux tells it. */
function resident(): number {
  const text = (pid: number | string, name: string): string => {
    try {
      return readFileSync(`/proc/${pid}/${name}`, 'utf8');
    } catch {
      return '';
    }
  };
  const parent = (pid: number): number => Number(/^PPid:\s+(\d+)/m.exec(text(pid, 'status'))?.[1] ?? 0);
  const mine = (pid: number): boolean => {
    for (let at = pid; at > 1; at = parent(at)) if (at === process.pid) return true;
    return false;
  };
  const pages = readdirSync('/proc')
    .map(Number)
    .filter((pid) => pid > 0 && text(pid, 'cmdline').includes('--type=renderer') && mine(pid));
  return (
    Math.max(0, ...pages.map((pid) => Number(/^VmRSS:\s+(\d+)/m.exec(text(pid, 'status'))?.[1] ?? 0))) *
    1.024e-3
  );
}

/** Does something, lets it settle, and tells what was held at the end and at the most. */
async function held(what: string, page: Page, act: () => Promise<void>): Promise<string> {
  let peak = 0;
  const look = setInterval(() => {
    peak = Math.max(peak, resident());
  }, 50);
  const began = Date.now();
  await act();
  const took = Date.now() - began;
  await page.waitForTimeout(REST);
  clearInterval(look);
  return `${what} ${Math.round(resident())} MB, at the most ${Math.round(peak)} (${(took / 1000).toFixed(1)} s)`;
}

test.each(SIZES)('memory of a tab with a picture of %d megapixels at 16 bit', async (megapixels) => {
  const path = await painting(megapixels);
  const { page } = await app.open({ path: 'headers.json' });
  const steps = [await held('an empty tab', page, async () => undefined)];
  const step = async (what: string, act: () => Promise<void>): Promise<void> => {
    steps.push(await held(what, page, act));
  };
  await step('the app', async () => {
    await page.goto(app.address);
    await page.locator('.empty').waitFor();
  });
  await step('open and checked', () => openPicture(page, path));
  await step('exposed', async () => {
    await page.keyboard.press('e');
    await page.locator('.add-step').getByRole('button', { name: 'exposure', exact: true }).click();
    await page.locator('.step').first().waitFor();
    await page.getByText('The notes are read again once the edit rests.').waitFor({ state: 'detached' });
  });
  await step('exported', async () => {
    // Nobody answers a chooser here: it goes to the downloads.
    await page.evaluate(() => Object.assign(window, { showSaveFilePicker: undefined }));
    await page.getByRole('button', { name: 'save', exact: true }).click();
    await page
      .getByText(/was (saved|downloaded)/)
      .first()
      .waitFor({ timeout: 300_000 });
  });
  console.log(`${megapixels} MP, load ${loadavg()[0].toFixed(1)}:\n  ${steps.join('\n  ')}`);
});

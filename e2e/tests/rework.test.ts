import { readFileSync } from 'node:fs';
import { differenceCiede2000 } from 'culori';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { expectClean } from '../house/axe.ts';
import { demoPictures } from '../house/demo.ts';
import { folder, motley } from '../house/pictures.ts';
import { goTo, openPicture, still } from '../house/steps.ts';

const files = folder();
const ferry = await files.picture('ferry.png', motley, (image) => image.resize(450));
const app = house();

/** The third demo picture at half its size: everything is found in it as well, in a quarter of the time. */
async function smallDemo(): Promise<string> {
  const path = `${files.path}/ferry-landing-3.png`;
  await sharp(demoPictures()['ferry-landing-3.png']).resize(1200).png().toFile(path);
  return path;
}
const sentences = async (page: Page): Promise<string[]> =>
  (await page.locator('.step-sentence').allTextContents()).map((text) => text.replaceAll('\u00a0', ' '));
const add = async (page: Page, kind: string): Promise<void> => {
  const words = page.locator('.add-step');
  if (!(await words.evaluate((it) => (it as HTMLDetailsElement).open)))
    await words.locator('summary').click();
  await words.getByRole('button', { name: kind, exact: true }).click();
};
/** The edit rests: the picture as it will be written is on the screen. */
const settled = (page: Page): Promise<void> => page.locator('.canvas[data-sharp]').last().waitFor();
const value = (page: Page, name: string) => page.getByRole('spinbutton', { name });
/** The colour in the middle of the stage, as shown. */
const middle = (page: Page): Promise<number[]> =>
  page
    .locator('.canvas')
    .last()
    .evaluate((it) => {
      const canvas = it as HTMLCanvasElement;
      const at = canvas.getContext('2d')?.getImageData(canvas.width / 2, canvas.height / 2, 1, 1).data;
      return [...(at ?? [])].slice(0, 3);
    });

/** Presses a button that saves and gives the path of what was saved. */
async function saved(page: Page, button: string | RegExp): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button, exact: true }).click(),
  ]);
  const path = `${files.path}/${download.suggestedFilename()}`;
  await download.saveAs(path);
  return path;
}

describe('the edit', () => {
  test('is made by keyboard and pointer, undone in words over a reload, compared, and clean by axe', async () => {
    const { page } = await app.open({ viewport: { width: 1024, height: 768 } });
    // The card is taken away in the middle of it; what is saved goes to the downloads.
    await page.addInitScript(() => {
      Reflect.deleteProperty(window, 'showSaveFilePicker');
      const take = HTMLCanvasElement.prototype.getContext;
      const taken: WebGL2RenderingContext[] = [];
      Object.assign(window, {
        loseCard: () => taken.at(-1)?.getExtension('WEBGL_lose_context')?.loseContext(),
      });
      HTMLCanvasElement.prototype.getContext = function (this: HTMLCanvasElement, ...wish: unknown[]) {
        const context = take.apply(this, wish as Parameters<typeof take>);
        if (wish[0] === 'webgl2' && context) taken.push(context as WebGL2RenderingContext);
        return context;
      } as typeof take;
    });
    await page.reload();
    page.setDefaultTimeout(120_000);
    await openPicture(page, ferry);
    await page.keyboard.press('e');
    await page.getByRole('heading', { name: 'Edit' }).waitFor();
    const before = await still(() => middle(page));

    await add(page, 'exposure');
    await expect.poll(() => sentences(page)).toEqual(['Expose by 0.30 stops, everywhere.']);
    await page.locator('.stage-place[data-quick]').waitFor();
    const stops = value(page, 'Exposure, exposure');
    await stops.focus();
    await page.keyboard.press('Shift+ArrowUp');
    const shown = async () => Number(await stops.getAttribute('aria-valuenow'));
    await expect.poll(shown).toBeGreaterThan(0.7);
    const brighter = await shown();
    const box = await stops.boundingBox();
    if (!box) throw new Error('no value');
    await page.mouse.move(box.x + 5, box.y + 5);
    await page.mouse.down();
    await page.mouse.move(box.x + 65, box.y + 5, { steps: 5 });
    await page.locator('.stage-place[data-quick]').waitFor();
    await page.mouse.up();
    await expect.poll(shown).toBeGreaterThan(brighter);
    await settled(page);
    await expect.poll(() => middle(page)).not.toEqual(before);
    await page.keyboard.down('b');
    await expect.poll(() => middle(page)).toEqual(before);
    await page.keyboard.up('b');
    await page.locator('.after[data-rested]').waitFor();

    // Areas: a group of values, an outline by the mouse, a gradient by the keyboard.
    await page.getByLabel('a value group').selectOption({ index: 1 });
    await page.locator('.area-thumb').waitFor();
    await page.getByLabel('How the next part joins').selectOption('subtract');
    await page.getByRole('button', { name: 'an outline you draw' }).click();
    const stage = await page.locator('.stage').boundingBox();
    if (!stage) throw new Error('no stage');
    const corner = (x: number, y: number): [number, number] => [
      stage.x + stage.width * x,
      stage.y + stage.height * y,
    ];
    await page.mouse.move(...corner(0.4, 0.4));
    await page.mouse.down();
    await page.mouse.move(...corner(0.6, 0.4), { steps: 4 });
    await page.mouse.move(...corner(0.6, 0.6), { steps: 4 });
    await page.mouse.move(...corner(0.4, 0.6), { steps: 4 });
    await page.mouse.up();
    await expect.poll(async () => (await sentences(page))[0]).toContain('but not one place');
    await page.getByRole('button', { name: 'a gradient' }).click();
    await page.keyboard.press('p');
    for (const key of ['ArrowDown', 'Enter', 'Shift+ArrowDown', 'Shift+ArrowDown', 'Enter'])
      await page.keyboard.press(key);
    await expect.poll(async () => (await sentences(page))[0]).toContain('an area of three parts');
    await expectClean(page);

    await page.evaluate(() => (window as unknown as { loseCard(): void }).loseCard());
    await page.getByText('No graphics card helps here').waitFor();
    await add(page, 'chroma');
    await page.locator('.stage-place[data-quick]').waitFor();

    await page.reload();
    await page.locator('.step').nth(1).waitFor();
    expect((await sentences(page))[1]).toBe('Multiply chroma by 0.85 ×, everywhere.');
    await page.getByRole('button', { name: 'Undo adding “Chroma”' }).click();
    await page.getByRole('button', { name: 'Undo changing “Exposure”' }).click();
    await expect.poll(async () => (await sentences(page))[0]).toContain('but not one place');
    await page.getByRole('button', { name: /redo changing/i }).click();
    await page.getByRole('button', { name: /redo adding/i }).click();
    await page.locator('.step-open').nth(1).click();
    await page.getByRole('button', { name: 'earlier' }).click();
    await expect.poll(async () => (await sentences(page))[0]).toContain('Multiply chroma');
    await page.getByRole('button', { name: 'switch off' }).click();
    await expect.poll(async () => (await sentences(page))[0]).toContain('Switched off.');
    await page.getByRole('button', { name: 'see options' }).click();
    await expect.poll(() => page.locator('.option:not([aria-disabled=true])').count()).toBeGreaterThan(11);
    await expectClean(page);
    for (const key of ['ArrowRight', 'ArrowDown', 'Enter']) await page.keyboard.press(key);
    await page.locator('.stage').waitFor();
    await expect.poll(async () => (await sentences(page))[0]).not.toContain('0.85 ×');
    await page.getByRole('button', { name: 'side by side' }).click();
    await expect.poll(() => page.locator('.stage').count()).toBe(2);
    await page.getByRole('button', { name: 'by a fade' }).click();
    await value(page, 'Seconds of a fade').waitFor();
    await expectClean(page);
    await page.getByRole('button', { name: 'by a fade' }).click();
    const recipe = await saved(page, 'saved as a file');
    expect(JSON.parse(readFileSync(recipe, 'utf8'))).toMatchObject({ schema: 'halflight/recipe@1' });
    await page.getByRole('button', { name: 'remove', exact: true }).click();
    await expect.poll(() => sentences(page)).toHaveLength(1);
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      page.getByRole('button', { name: 'taken from one' }).click(),
    ]);
    await chooser.setFiles(recipe);
    await expect.poll(() => page.locator('.step').count()).toBe(2);
    await page.getByRole('button', { name: 'draw what it must leave alone' }).click();
    for (const [x, y] of [
      [0.2, 0.3],
      [0.4, 0.3],
      [0.3, 0.6],
    ])
      await page.mouse.click(...corner(x, y));
    await page.getByRole('button', { name: 'close the outline' }).click();
    await page.getByText('It leaves one place alone').waitFor();
    await page.getByRole('button', { name: 'Undo protecting a place' }).click();
    await page.getByRole('button', { name: /Undo taking the edit of/ }).click();
    await expect.poll(() => sentences(page)).toHaveLength(1);
    await goTo(page, 'check');
    await page.getByRole('button', { name: 'an edit of one step' }).waitFor();
  });
});

test('on the demo: the proposal is taken, and the settled screen equals the written file', async () => {
  const { page } = await app.open({ viewport: { width: 1024, height: 768 } });
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, 'showSaveFilePicker');
  });
  await page.reload();
  page.setDefaultTimeout(120_000);
  await openPicture(page, await smallDemo());
  await page.keyboard.press('e');
  await page.getByRole('button', { name: 'propose the smallest edit' }).click();
  await page.locator('.step').first().waitFor();
  await add(page, 'warmer, cooler');
  await page.getByLabel('Bits of each channel').selectOption('16');
  await settled(page);
  const shown = await stagePixels(page);
  const path = await saved(page, 'save');
  expect(path).toMatch(/ edited\.png$/);
  await page.locator('.write').getByText('it was read back and is as meant').waitFor();
  const info = await sharp(readFileSync(path)).metadata();
  expect([info.depth, info.channels]).toEqual(['ushort', 3]);
  const written = await averaged(path, shown.width, shown.height);
  expect(largestDifference(shown.data, written)).toBeLessThan(0.25);
});

/** The picture on the stage: what is opaque of it. */
async function stagePixels(page: Page): Promise<{ width: number; height: number; data: Uint8Array }> {
  const url = await page
    .locator('.canvas')
    .last()
    .evaluate((it) => (it as HTMLCanvasElement).toDataURL());
  const { data, info } = await sharp(Buffer.from(url.split(',')[1], 'base64'))
    .raw()
    .toBuffer({ resolveWithObject: true });
  const solid = (x: number, y: number): boolean => data[4 * (y * info.width + x) + 3] === 255;
  const [mx, my] = [info.width >> 1, info.height >> 1];
  let [left, right, top, bottom] = [mx, mx, my, my];
  while (left > 0 && solid(left - 1, my)) left--;
  while (right < info.width - 1 && solid(right + 1, my)) right++;
  while (top > 0 && solid(mx, top - 1)) top--;
  while (bottom < info.height - 1 && solid(mx, bottom + 1)) bottom++;
  const [width, height] = [right - left + 1, bottom - top + 1];
  const out = new Uint8Array(3 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      out.set(data.subarray(4 * ((top + y) * info.width + left + x)).subarray(0, 3), 3 * (y * width + x));
  return { width, height, data: out };
}

const toLight = (code: number): number => (code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4);
const toCode = (light: number): number =>
  light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;

/** A 16-bit sRGB file averaged by area in linear light (IEC 61966-2-1), as code values 0…1. */
async function averaged(path: string, width: number, height: number): Promise<Float64Array> {
  const { data, info } = await sharp(path, { ignoreIcc: true })
    .toColourspace('rgb16')
    .raw({ depth: 'ushort' })
    .toBuffer({ resolveWithObject: true });
  const codes = new Uint16Array(data.buffer, data.byteOffset, data.length / 2);
  const light = Float64Array.from({ length: 65536 }, (_, code) => toLight(code / 65535));
  const lines = new Float64Array(3 * width * info.height);
  const share = (from: number, to: number, at: number): number =>
    Math.max(0, Math.min(to, at + 1) - Math.max(from, at));
  for (let x = 0; x < width; x++) {
    const [from, to] = [(x * info.width) / width, ((x + 1) * info.width) / width];
    for (let at = Math.floor(from); at < Math.min(info.width, to); at++)
      for (let y = 0; y < info.height; y++)
        for (let c = 0; c < 3; c++)
          lines[3 * (y * width + x) + c] +=
            (share(from, to, at) / (to - from)) * light[codes[info.channels * (y * info.width + at) + c]];
  }
  const out = new Float64Array(3 * width * height);
  for (let y = 0; y < height; y++) {
    const [from, to] = [(y * info.height) / height, ((y + 1) * info.height) / height];
    for (let at = Math.floor(from); at < Math.min(info.height, to); at++)
      for (let i = 0; i < 3 * width; i++)
        out[3 * width * y + i] += (share(from, to, at) / (to - from)) * lines[3 * width * at + i];
  }
  return out.map(toCode);
}

/**
 * Largest CIEDE2000 (by culori) between screen pixels and code values, over every second place. What lies within the
 * rounding of an 8-bit screen is no difference: by itself it makes up to 1.05 in the darks.
 */
function largestDifference(shown: Uint8Array, meant: Float64Array): number {
  const difference = differenceCiede2000();
  let most = 0;
  for (let i = 0; i < shown.length; i += 6) {
    const own = [0, 1, 2].map((c) => shown[i + c]);
    const held = own.map((code, c) => {
      const off = 255 * meant[i + c] - code;
      return code + Math.sign(off) * Math.max(0, Math.abs(off) - 0.5);
    });
    const [a, b] = [own, held].map(
      ([r, g, b]) => ({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 }) as const,
    );
    most = Math.max(most, difference(a, b));
  }
  return most;
}

import { readFileSync } from 'node:fs';
import { bytesSource, type LayerDraft, openOpenRaster, writeOpenRaster } from '@halflight/files/openraster';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { expectClean } from '../house/axe.ts';
import { folder } from '../house/pictures.ts';
import { notesOf, openNote } from '../house/steps.ts';

const app = house();
const files = folder();

const [WIDTH, HEIGHT] = [240, 160];
const SIZES = [
  [1024, 768],
  [820, 1180],
  [1440, 900],
] as const;

/** Code values and alpha 0…255 at a place, both coordinates 0…1. */
type Paint = (x: number, y: number) => readonly [number, number, number, number];

const CLEAR = [0, 0, 0, 0] as const;
const ground: Paint = (x, y) => [60 + 90 * y, 80 + 60 * y + 20 * x, 120 + 40 * x, 255];
const lamp =
  (r: number, g: number, b: number): Paint =>
  (x, y) =>
    Math.hypot(x - 0.7, y - 0.4) < 0.2 ? [r, g, b, 255] : CLEAR;

/** Lowest first: one layer of each kind that is told apart. */
const PLAN: readonly { name: string; paint: Paint; hidden?: boolean }[] = [
  { name: 'block-in', paint: () => [90, 90, 90, 255] },
  { name: 'ground', paint: ground },
  { name: 'posts', paint: (x, y) => (y > 0.5 && Math.floor(12 * x) % 3 === 0 ? [40, 34, 30, 255] : CLEAR) },
  { name: 'new layer', paint: () => CLEAR },
  { name: 'warm lamp', paint: lamp(235, 170, 80) },
  { name: 'cool lamp', paint: lamp(90, 160, 230), hidden: true },
  { name: 'mist', paint: (_, y) => [170, 150, 190, 110 * Math.exp(-(((y - 0.6) / 0.3) ** 2))] },
];

function pixelsOf(paint: Paint): Buffer {
  const data = Buffer.alloc(4 * WIDTH * HEIGHT);
  for (let v = 0; v < HEIGHT; v++)
    for (let u = 0; u < WIDTH; u++)
      data.set(paint((u + 0.5) / WIDTH, (v + 0.5) / HEIGHT).map(Math.round), 4 * (v * WIDTH + u));
  return data;
}

async function png(pixels: Buffer): Promise<Uint8Array<ArrayBuffer>> {
  const made = sharp(pixels, { raw: { width: WIDTH, height: HEIGHT, channels: 4 } });
  return new Uint8Array(await made.png().toBuffer());
}

/** Normal layers over each other, from the lowest (W3C Compositing and Blending Level 1, section 5.1). */
function put(layers: readonly { pixels: Uint8Array; opacity: number }[]): Float64Array {
  const out = new Float64Array(4 * WIDTH * HEIGHT);
  for (const { pixels, opacity } of layers)
    for (let i = 0; i < out.length; i += 4) {
      const as = (opacity * pixels[i + 3]) / 255;
      const ao = as + out[i + 3] * (1 - as);
      if (ao === 0) continue;
      for (let c = 0; c < 3; c++) out[i + c] = (as * pixels[i + c] + (1 - as) * out[i + 3] * out[i + c]) / ao;
      out[i + 3] = ao;
    }
  return out.map((value, i) => (i % 4 === 3 ? 255 * value : value));
}

const pngs = new Map<string, Uint8Array<ArrayBuffer>>();
for (const { name, paint } of PLAN) pngs.set(name, await png(pixelsOf(paint)));
const merged = await png(
  Buffer.from(
    put(
      PLAN.filter(({ hidden }) => !hidden).map(({ paint }) => ({ pixels: pixelsOf(paint), opacity: 1 })),
    ).map(Math.round),
  ),
);
const layered = files.bytes(
  'landing.ora',
  await writeOpenRaster({
    width: WIDTH,
    height: HEIGHT,
    root: {
      attributes: {},
      children: PLAN.map(
        ({ name, hidden }): LayerDraft => ({
          attributes: { name, ...(hidden ? { visibility: 'hidden' } : {}) },
          x: 0,
          y: 0,
          png: pngs.get(name)!,
        }),
      ),
    },
    merged,
    thumbnail: merged,
  }),
);

const row = (page: Page, name: string) => page.locator(`[data-layer="${name}"]`);
const weighed = (page: Page) => page.locator('[data-weighed]').waitFor();

test('a layered file is thinned out by keyboard, written and read back; pictures are taken as layers', async () => {
  const { page } = await app.open();
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, 'showSaveFilePicker');
  });
  await page.reload();
  page.setDefaultTimeout(60_000);

  // The file hangs as the picture that it shows; the notes count its layers and lead to them.
  await page.locator('input[type=file]').first().setInputFiles(layered);
  await notesOf(page);
  await openNote(page, 'Two layers show nothing.');
  await page.getByRole('button', { name: 'See what each layer is worth' }).click();
  await page.getByRole('heading', { name: 'Thin out' }).waitFor();
  await weighed(page);
  await expect
    .poll(() => page.locator('[data-weighed]').textContent())
    .toBe('Seven layers: two show nothing, one choice is open, three can be one and one is an effect.');
  const told = await page
    .locator('.tree-item')
    .evaluateAll((items) => items.map((item) => item.getAttribute('aria-label') ?? ''));
  expect(told.map((text) => text.split('. ')[0])).toEqual(PLAN.map(({ name }) => name).reverse());
  expect(told.filter((text) => text.includes('shows nothing')).map((text) => text.split('. ')[0])).toEqual([
    'new layer',
    'block-in',
  ]);

  // The list by keyboard: up and down, show and hide, what one is worth, which are shown.
  await row(page, 'mist').focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowDown');
  await expect
    .poll(() => page.evaluate(() => (document.activeElement as HTMLElement).dataset.layer))
    .toBe('warm lamp');
  await page.keyboard.press('Space');
  await page.locator('[data-shown=turned]').waitFor();
  await page.keyboard.press('Space');
  await page.locator('[data-shown=file]').waitFor();
  await page.keyboard.press('Enter');
  await expect
    .poll(() => row(page, 'warm lamp').textContent())
    .toMatch(/Without it the whole picture changes by [\d.]+ on average/);
  for (const [width, height] of SIZES) {
    await page.setViewportSize({ width, height });
    await expectClean(page);
  }
  await page.getByLabel('Which layers are listed').selectOption('effects');
  await expect.poll(() => page.locator('.tree-item').count()).toBe(1);
  await page.getByLabel('Which layers are listed').selectOption('all');

  // As one layer: how far that is from the picture.
  await row(page, 'posts').focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'look at them as one' }).click();
  await page.getByText('as one layer', { exact: true }).waitFor();
  await expect.poll(() => row(page, 'posts').textContent()).toMatch(/code value/);

  // The choice, side by side: arrows move, Enter chooses; undone and done again.
  await openNote(page, /one is to be chosen/);
  await page.locator('.note[data-open]').getByRole('button', { name: 'see them side by side' }).focus();
  await page.keyboard.press('Enter');
  await page.locator('.option[aria-disabled=false]').nth(1).waitFor();
  await expectClean(page);
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: '“cool lamp” is chosen.' }).waitFor();
  await expect.poll(() => row(page, 'warm lamp').getAttribute('aria-label')).toContain('taken away');
  await page.keyboard.press('Control+z');
  await page.getByRole('button', { name: /one is to be chosen/ }).waitFor();
  await page.keyboard.press('Control+Shift+z');
  await page.getByRole('button', { name: '“cool lamp” is chosen.' }).waitFor();

  // The effect: hue and strength, then closed. The numbers are made again on request.
  await row(page, 'mist').focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'see its hue and strength' }).click();
  const option = page.locator('.option', { hasText: '50 %, its own hue' });
  await option.and(page.locator('[aria-disabled=false]')).waitFor();
  await option.focus();
  await page.keyboard.press('Enter');
  await page.getByText('Settled at an opacity of 50 %.').waitFor();
  await page.getByRole('button', { name: 'Weigh again' }).click();
  await expect.poll(() => row(page, 'cool lamp').getAttribute('aria-label')).toMatch(/seen, [\d.]+/);

  // The plan, and the new file: what was decided, and nothing else.
  await openNote(page, /can be written as/);
  await page.getByRole('radio').first().focus();
  await page.keyboard.press('ArrowDown');
  await expect.poll(() => page.getByRole('radio').nth(1).isChecked()).toBe(true);
  for (const [width, height] of SIZES) {
    await page.setViewportSize({ width, height });
    await expectClean(page);
  }
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'save the layered file' }).press('Enter'),
  ]);
  await page.locator('[data-done]').getByText('bytes checked').waitFor();
  expect(download.suggestedFilename()).toBe('landing thinned.ora');
  const bytes = new Uint8Array(readFileSync(await download.path()));
  const back = await openOpenRaster(bytesSource(bytes, 'thinned.ora'));
  const names = back.nodes.map(({ name }) => name);
  for (const gone of ['block-in', 'new layer', 'warm lamp']) expect(names).not.toContain(gone);
  expect(names.at(-1)).toBe('mist');
  const decoded = await Promise.all(
    back.nodes.map(async (node) => {
      if (node.kind !== 'layer') throw new Error('a group');
      const image = sharp(await back.layer(node));
      const { width = 0, height = 0 } = await image.metadata();
      const small = await image.ensureAlpha().raw().toBuffer();
      const pixels = Buffer.alloc(4 * WIDTH * HEIGHT);
      for (let v = 0; v < height; v++)
        pixels.set(small.subarray(4 * v * width, 4 * (v + 1) * width), 4 * ((v + node.y) * WIDTH + node.x));
      return { pixels, opacity: node.opacity };
    }),
  );
  const meant = put(
    ['ground', 'posts', 'cool lamp', 'mist'].map((name) => ({
      pixels: pixelsOf(PLAN.find((one) => one.name === name)!.paint),
      opacity: name === 'mist' ? 0.5 : 1,
    })),
  );
  const saved = await sharp((await back.merged())!)
    .ensureAlpha()
    .raw()
    .toBuffer();
  const together = put(decoded);
  const far = (a: ArrayLike<number>): number =>
    meant.reduce((most, value, i) => Math.max(most, Math.abs(value - a[i])), 0);
  // Each layer that was merged was rounded once, and the whole once more.
  expect(far(together)).toBeLessThanOrEqual(1);
  expect(far(saved)).toBeLessThanOrEqual(1.5);

  // What was decided is there again after a reload.
  await page.reload();
  await weighed(page);
  await page.getByRole('button', { name: '“cool lamp” is chosen.' }).waitFor();

  // Pictures as layers: order, what is held against the flat one; bad ones say so.
  await page.evaluate(() => {
    location.hash = '#/layers';
  });
  await page.getByText('Here hangs a picture that came in layers').waitFor();
  await expectClean(page);
  const given = (name: string, bytes: Uint8Array) => ({ name, mimeType: '', buffer: Buffer.from(bytes) });
  const chooser = page.getByLabel('Layered file, or layers as PNGs');
  await chooser.setInputFiles([given('sketch.png', Buffer.from('no picture')), given('b.png', merged)]);
  await page
    .getByRole('alert')
    .getByText(/“sketch/)
    .waitFor();
  await page.getByRole('button', { name: 'I have read it' }).click();
  await chooser.setInputFiles([
    given('posts.png', pngs.get('posts')!),
    given('ground.png', pngs.get('ground')!),
    given('mist.png', pngs.get('mist')!),
    given('warm lamp.png', pngs.get('warm lamp')!),
    given('flat.png', merged),
  ]);
  await page.getByLabel('The picture of all layers together').selectOption('flat');
  await page.getByText(/Against “flat”, \d+ % of the picture changes/).waitFor();
  await page.getByRole('button', { name: 'ground down' }).press('Enter');
  await page.getByRole('button', { name: 'mist up' }).press('Enter');
  await page.getByText(/Against “flat”, (?:no|not one) code value changes/).waitFor();
  await expectClean(page);
  await page.getByLabel('Mode of mist').selectOption('multiply');
  await page.getByText(/Against “flat”, \d+ % of the picture changes/).waitFor();
  await page.getByRole('button', { name: 'weigh these layers' }).press('Enter');
  await weighed(page);
  await expect.poll(() => page.locator('.tree-item').count()).toBe(4);

  // The same picture with and without one layer.
  await page.reload();
  await page.getByText('Here hangs a picture that came in layers').waitFor();
  await chooser.setInputFiles([
    given(
      'without.png',
      await png(Buffer.from(put([{ pixels: pixelsOf(ground), opacity: 1 }]).map(Math.round))),
    ),
    given('with.png', merged),
  ]);
  await page.getByLabel('What the two pictures are').selectOption('pair');
  await page.getByText(/The layer .*seen\.|The layer carries the picture\./).waitFor();
  await page.getByText(/Without it the whole picture changes by/).waitFor();
});

import sharp from 'sharp';
import { expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { expectClean } from '../house/axe.ts';
import { folder, paint } from '../house/pictures.ts';
import { openPicture } from '../house/steps.ts';

const files = folder();
const app = house();

const KEY = [0.9, 0.62, 0.36];
const FILL = [0.1, 0.13, 0.22];
/** Reflectances: three greys and nine hues around the circle. */
const PIGMENTS = Array.from({ length: 12 }, (_, id) => {
  const grey = { 0: 0.6, 3: 0.3, 7: 0.13 }[id];
  return [0, 1, 2].map((c) => grey ?? 0.32 + 0.2 * Math.cos(2 * Math.PI * (id / 12 - c / 3)));
});
/** Their shade is the lit colour, only darker: what the reading has to find. */
const NEUTRAL = [2, 5];

const luminance = ([r, g, b]: readonly number[]): number => 0.2126 * r + 0.7152 * g + 0.0722 * b;
const toCode = (light: number): number =>
  255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055);

/** Twelve pigments, each lit above and in shade below: ρ(kK + A), with a little grain. */
const painted = paint(600, 450, (x, y) => {
  const [u, v] = [x * 4, y * 3];
  const id = 4 * Math.floor(v) + Math.floor(u);
  const k = Math.min(1, Math.max(0, 0.5 - 25 * ((v % 1) - 0.45 - 0.25 * ((u % 1) - 0.5))));
  const light = PIGMENTS[id].map((p, c) => p * (FILL[c] + k * KEY[c]));
  const full = PIGMENTS[id].map((p, c) => p * (FILL[c] + KEY[c]));
  const colour = NEUTRAL.includes(id) ? full.map((p) => (p * luminance(light)) / luminance(full)) : light;
  const grain = 1 + 0.02 * Math.sin(1200 * x + 40 * Math.sin(900 * y));
  return colour.map((p) => toCode(grain * p));
});

test('a shade that ignores the light: its colours, its curve, why, the guide, and the light decided', async () => {
  const { page } = await app.open({ viewport: { width: 1024, height: 768 } });
  page.setDefaultTimeout(120_000);
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, 'showSaveFilePicker');
  });
  await page.reload();
  await openPicture(page, await files.picture('panels.png', painted));
  await page.getByRole('button', { name: /shade ignores the light/ }).click();
  const patch = await page.locator('.places .patch').first().boundingBox();
  expect(Math.min(patch?.width ?? 0, patch?.height ?? 0)).toBeGreaterThanOrEqual(48);
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page
    .getByRole('button', { name: /Copy in this light: #[0-9a-f]{6}/ })
    .first()
    .click();
  await expect.poll(() => page.evaluate(() => navigator.clipboard.readText())).toMatch(/^#[0-9a-f]{6}$/);
  await page.locator('.places .drawing').first().waitFor();

  // A tap in the middle of the neutral shade of the third pigment.
  const stage = await page.locator('.stage').boundingBox();
  if (!stage) throw new Error('no stage');
  const scale = Math.min(1, (stage.width - 40) / 600, (stage.height - 40) / 450);
  const at = (x: number, y: number): [number, number] => [
    stage.x + stage.width / 2 + (x - 0.5) * 600 * scale,
    stage.y + stage.height / 2 + (y - 0.5) * 450 * scale,
  ];
  await page.mouse.click(...at(0.625, 0.27));
  await page.locator('.light-of-place .drawing').waitFor();
  await expect.poll(() => page.locator('.pairs li').count()).toBeGreaterThan(0);
  await expect.poll(() => page.locator('[data-mark=pair]').count()).toBeGreaterThan(0);
  await expectClean(page);

  await page.keyboard.press('e');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'save the guide layer' }).click(),
  ]);
  await download.saveAs(`${files.path}/guide.png`);
  const guide = sharp(`${files.path}/guide.png`);
  const { channels } = await guide.stats();
  expect([(await guide.metadata()).width, channels[3].min, channels[3].max]).toEqual([600, 0, 255]);

  await page.keyboard.press('i');
  await page.getByRole('button', { name: 'The light is left open.' }).click();
  await page.getByRole('radio', { name: /Dusk, the sun just gone.*mired warmer/ }).check();
  await page.getByRole('button', { name: 'The light is decided: dusk, the sun just gone.' }).waitFor();
  await page.getByRole('button', { name: 'Tap one surface, lit and in shade' }).click();
  await page.locator('.task-line', { hasText: 'Tap a surface where it is lit.' }).waitFor();
  await expectClean(page);
  await page.mouse.click(...at(0.125, 0.08));
  await page.locator('.task-line', { hasText: 'Tap the same surface where it is in shade.' }).waitFor();
  await page.mouse.click(...at(0.125, 0.28));
  await page
    .getByRole('button', { name: 'The light is taken from one surface, lit and in shade.' })
    .waitFor();
  await page.getByText(/The picture carries it in \d+ % of the shade/).waitFor();

  // The whole painting in every light of the table; the one that is chosen is decided, and the edit turns it.
  await page.getByRole('button', { name: 'turn the picture into one' }).click();
  await expect.poll(() => page.locator('.option:not([aria-disabled=true])').count()).toBe(12);
  await expectClean(page);
  await page.locator('.option', { hasText: 'Under water' }).click();
  await page.getByRole('button', { name: 'The light is decided: under water.' }).waitFor();
  await page.getByRole('button', { name: 'Undo turning the light' }).waitFor();
  await page.getByRole('button', { name: 'an edit of three steps' }).waitFor();
});

import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { expectClean } from '../house/axe.ts';
import { folder, type Made, motley, paint } from '../house/pictures.ts';
import { note, notesOf, openNote, openPicture } from '../house/steps.ts';

const files = folder();
const DARKS = /Darks are closed/;

/** A picture made out of another's colours, at two thirds of the size of those of other tests: many are read here. */
const anew = (from: Made, colour: (rgb: number[]) => number[]): Made =>
  paint(600, 400, (x, y) => {
    const p = 3 * (Math.floor(y * from.height) * from.width + Math.floor(x * from.width));
    return colour([...from.data.subarray(p, p + 3)]);
  });
const evening = anew(motley, (rgb) => rgb);
const lifted = anew(motley, (rgb) => (rgb[0] + rgb[1] + rgb[2] === 0 ? [60, 64, 90] : rgb));
const hazy = anew(lifted, (rgb) => rgb.map((value) => 0.8 * value + 30));

const first = await files.picture('ferry.png', evening);
const second = await files.picture('ferry-2.png', lifted);
const third = await files.picture('ferry-3.png', hazy);
const app = house();

test('a work over time', async () => {
  const { page } = await app.open();
  await openPicture(page, first);
  await openNote(page, DARKS);
  await page.getByRole('button', { name: 'will do' }).click();
  await note(page, DARKS).getByText('You will do this').first().waitFor();

  // The same picture, further on, is the next version by itself, and says what became of what was meant.
  await openPicture(page, second);
  await page.getByText('You meant to do one thing: it is gone.').waitFor();
  await expect.poll(() => page.locator('h1').textContent()).toBe('Ferry · version 2');
  await page.getByText(/Since version 1: from a distance \d+ % of the picture changed/).waitFor();

  // A paste is read and not kept; kept it is a version, and undo takes that back.
  await paste(page, third);
  await page.getByText('This paste is read, not kept').waitFor();
  await expect.poll(() => page.locator('h1').textContent()).toBe('Ferry · a paste after version 2');
  await page.getByRole('button', { name: 'keep it as version 3' }).click();
  await titled(page, 'Ferry · version 3');
  await page.getByRole('button', { name: 'Undo keeping the paste' }).click();
  await titled(page, 'Ferry · version 2');
  await notesOf(page);
  await page.keyboard.press('Control+Shift+z');
  await titled(page, 'Ferry · version 3');
  await notesOf(page);

  // The quiet look, by the keyboard alone: nothing but the picture, then three questions.
  await page.keyboard.press('l');
  const begin = page.getByRole('button', { name: 'Begin the look' });
  await begin.waitFor();
  await begin.focus();
  await page.keyboard.press('Enter');
  await page.locator('.quiet-look').waitFor();
  await expect.poll(() => page.locator('.quiet-look').textContent()).toBe('');
  await page.keyboard.press('Escape');
  await page.getByText('Where did the eye go first?').waitFor();
  await expect.poll(() => page.evaluate(() => document.activeElement?.className)).toBe('look-picture');
  for (const key of ['ArrowRight', 'ArrowUp', 'Enter']) await page.keyboard.press(key);
  await page.getByRole('button', { name: 'mostly there' }).click();
  await page.getByRole('button', { name: 'an edge' }).click();
  await page.getByRole('button', { name: 'one more thing' }).click();
  await page.getByText('One look so far.').waitFor();
  await page.getByRole('button', { name: 'where looks began' }).click();
  await expectClean(page);
  await page.getByText(/last look today/).waitFor();

  // Progress: maps between two versions, the strip as a file, the decision with its date.
  await page.keyboard.press('v');
  await page.locator('.change-maps canvas').nth(1).waitFor();
  await page.getByText(/For someone who stands back/).waitFor();
  await page.getByLabel('Earlier version').selectOption('1');
  await page.locator('.strip button[aria-pressed=true]').nth(1).waitFor();
  await expect.poll(() => page.locator('.strip img').count()).toBe(3);
  await page.locator('.course').first().waitFor();
  await page.locator('.change-maps canvas').nth(1).waitFor();
  await expectClean(page);
  const png = await saved(page, 'a picture');
  const { width, format } = await sharp(png).metadata();
  expect(format).toBe('png');
  expect(width).toBeGreaterThan(3 * 2 * 280);
  const svg = (await saved(page, 'a drawing (SVG)')).toString('utf8');
  expect(svg.match(/<image /g)).toHaveLength(3);
  expect(svg).toContain('data:image/webp;base64,');
  const animation = await saved(page, 'an animation (WebP)');
  expect((await sharp(animation, { animated: true }).metadata()).pages).toBe(3);
  await page.getByRole('button', { name: 'It is done' }).click();
  await page.getByText(/^Decided on \d+ \w+ \d{4}, at version 3\.$/).waitFor();
  await page.getByRole('button', { name: 'Take it up again' }).click();
  await page.getByRole('button', { name: 'It is done' }).waitFor();

  // A watched file: each save is the next version; half a file is waited for; a reload goes on with it.
  await save(page, second);
  await page.evaluate(() => {
    Object.assign(window, {
      showOpenFilePicker: async () => [
        await (await navigator.storage.getDirectory()).getFileHandle('ferry.png'),
      ],
    });
  });
  await page.getByRole('button', { name: 'Watch its file' }).click();
  await titled(page, 'Ferry · version 4');
  await page.getByText('Every save of ferry.png is read.').waitFor();
  await save(page, first, 0.5);
  await page.waitForTimeout(1500);
  // Half a file disturbs nothing: the work hangs as it was, and nothing is complained about.
  await expect.poll(() => page.locator('h1').textContent()).toBe('Ferry · version 4');
  await expect.poll(() => page.getByRole('alert').count()).toBe(0);
  await save(page, first);
  await titled(page, 'Ferry · version 5');
  await page.reload();
  await page.getByText('Every save of ferry.png is read.').waitFor();
  await save(page, third);
  await titled(page, 'Ferry · version 6');
  await page.getByRole('button', { name: 'Stop watching' }).click();
  await page.getByRole('button', { name: 'Watch its file' }).waitFor();
});

test('finished works are read once; what is unusual is told beside them', async () => {
  const { page } = await app.open({ path: '#/baseline' });
  await page.getByLabel('Finished works', { exact: true }).setInputFiles([first, second]);
  await page.getByRole('alert').getByText('2 works could be read; from 5 on').waitFor();
  const all = await Promise.all(
    [0.5, 0.6, 0.7, 0.8, 0.9].map((t) =>
      files.picture(
        `grey-${t}.png`,
        paint(90, 60, (x) => [90 * t + 40 * x, 90 * t + 40 * x, 95 * t + 40 * x]),
      ),
    ),
  );
  await page
    .getByLabel('Finished works', { exact: true })
    .setInputFiles([...all, files.bytes('note.txt', 'no picture')]);
  await page.getByText('Notes stand beside five of your finished works.').waitFor();
  await page.getByText('One file could not be read:').waitFor();
  await expect.poll(() => page.locator('.baseline tbody td').count()).toBeGreaterThan(10);
  await expectClean(page);
  await page.getByRole('button', { name: 'Leave them out' }).click();
  await page.reload();
  await page.getByText('Five finished works are read, and left out.').waitFor();
  const ranges = JSON.parse((await saved(page, 'Save the ranges')).toString('utf8'));
  expect([ranges.schema, ranges.works]).toEqual(['halflight/baseline@1', 5]);
});

test('a picture shared by another program is opened', async () => {
  const { page } = await app.open({ serviceWorkers: 'allow' });
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await page.evaluate(
    async (bytes) => {
      const form = new FormData();
      form.append('files', new File([new Uint8Array(bytes)], 'Bérgen.png', { type: 'image/png' }));
      await fetch('./share', { method: 'POST', body: form });
    },
    [...readFileSync(first)],
  );
  await page.reload();
  await notesOf(page);
  await expect.poll(() => page.locator('h1').textContent()).toBe('Bérgen · version 1');
});

/** Waits for a title and version; reading one takes its time on a busy machine. */
function titled(page: Page, title: string): Promise<void> {
  return page.getByRole('heading', { level: 1, name: title, exact: true }).waitFor({ timeout: 90_000 });
}

/** Pastes a picture as the browser does. */
async function paste(page: Page, path: string): Promise<void> {
  await page.evaluate(
    (bytes) => {
      const data = new DataTransfer();
      data.items.add(new File([new Uint8Array(bytes)], 'image.png', { type: 'image/png' }));
      window.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true }));
    },
    [...readFileSync(path)],
  );
}

/** What is saved by a press, where the browser has no place to ask for. */
async function saved(page: Page, name: string): Promise<Buffer> {
  await page.evaluate(() => Object.assign(window, { showSaveFilePicker: undefined }));
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name, exact: true }).click();
  return readFileSync(await (await coming).path());
}

/** Saves a file, or its first part, in the browser's own file system, as a painting program would. */
async function save(page: Page, path: string, part = 1): Promise<void> {
  const bytes = readFileSync(path);
  await page.evaluate(
    async (content) => {
      const file = await (await navigator.storage.getDirectory()).getFileHandle('ferry.png', {
        create: true,
      });
      const stream = await file.createWritable();
      await stream.write(new Uint8Array(content));
      await stream.close();
    },
    [...bytes.subarray(0, Math.round(part * bytes.length))],
  );
}

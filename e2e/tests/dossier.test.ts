import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { house, secondTab } from '../house/app.ts';
import { calm, folder, motley } from '../house/pictures.ts';
import { goTo, note, notesOf, openNote, openPicture } from '../house/steps.ts';

const files = folder();
const ferry = await files.picture('ferry.png', motley);
const barn = await files.picture('barn.png', calm);
const app = house();
const DARKS = /Darks are closed/;
const COMMAND = fileURLToPath(new URL('../../packages/cli/bin/halflight.js', import.meta.url));

/** The file that a press saves, in the way of browsers that only download. */
async function savedBy(page: Page, press: () => Promise<void>, name: string): Promise<string> {
  const coming = page.waitForEvent('download');
  await press();
  const path = join(files.path, name);
  await (await coming).saveAs(path);
  return path;
}

/** Opens the app as a browser without a dialog for saving. */
async function openPlain() {
  const opened = await app.open();
  await opened.context.addInitScript(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  await opened.page.reload();
  await opened.page.locator('.empty').waitFor();
  return opened;
}

function halflight(...args: string[]): { code: number | null; stdout: string } {
  const { status, stdout } = spawnSync(process.execPath, [COMMAND, ...args], { encoding: 'utf8' });
  return { code: status, stdout };
}

test('a work leaves as a dossier, which the command line reads, and comes back into an empty browser', async () => {
  const { page } = await openPlain();
  await openPicture(page, ferry);
  await openNote(page, DARKS);
  await page.getByRole('button', { name: 'will do' }).click();
  await note(page, DARKS).getByText('You will do this').first().waitFor();
  await page.getByLabel('State of this work').selectOption('resting');
  await page.getByText('whatever the browser clears while it rests').waitFor();
  const saved = await savedBy(
    page,
    () => page.getByRole('button', { name: 'Save its dossier' }).click(),
    'one.halflight',
  );

  expect(halflight('work', 'verify', saved)).toMatchObject({ code: 0 });
  const { work } = JSON.parse(halflight('work', 'show', saved, '--json').stdout);
  expect([work.title, work.state, work.answers.length]).toEqual(['Ferry', 'resting', 1]);
  halflight('work', 'export', saved, '--out', join(files.path, 'out'));
  expect(readFileSync(join(files.path, 'out', '01-ferry.png')).equals(readFileSync(ferry))).toBe(true);

  // The next version is added by the command line, and the app shows it.
  expect(halflight('work', 'add', saved, barn).code).toBe(0);
  const { page: other } = await app.open();
  await openPicture(other, saved);
  await other.getByRole('heading', { name: /Ferry · version 2/ }).waitFor();
  await goTo(other, 'shelf');
  const row = other.locator('.row', { hasText: 'Ferry' });
  expect(await row.textContent()).toMatch(/version 2 · resting/);
  expect(await row.locator('img').evaluate((it: HTMLImageElement) => it.naturalWidth)).toBeGreaterThan(100);
});

test('the whole shelf leaves as one file and comes back; it is not doubled', async () => {
  const { page } = await openPlain();
  await openPicture(page, ferry);
  await openPicture(page, barn);
  await page.getByRole('heading', { name: /Barn · version 1/ }).waitFor();
  await goTo(page, 'shelf');
  await expect.poll(() => page.locator('.row').count()).toBe(2);
  const saved = await savedBy(
    page,
    () => page.getByRole('button', { name: 'Save the whole shelf' }).click(),
    'shelf.zip',
  );
  const { page: other } = await app.open();
  await other.locator('input[type=file]').first().setInputFiles(saved);
  await expect.poll(() => other.locator('.row').count()).toBe(2);
  await other.locator('input[type=file]').first().setInputFiles(saved);
  await other.getByRole('alert').getByText('2 works are on the shelf already').waitFor();
  expect(await other.locator('.row').count()).toBe(2);
});

test('what is no dossier gets a sentence', async () => {
  const { page } = await app.open();
  await page.locator('.empty').waitFor();
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'ferry.halflight', mimeType: '', buffer: Buffer.from('letters') });
  await page.getByRole('alert').getByText('“ferry.halflight” is not a dossier of Halflight').waitFor();
});

test('a second tab follows what the first one does, and takes over when it goes', async () => {
  const first = await app.open();
  await openPicture(first.page, ferry);
  const page = await secondTab(first, first.page.url());
  await notesOf(page);
  await page.getByText('This work is open in another tab').waitFor();
  await openNote(first.page, DARKS);
  await first.page.getByRole('button', { name: 'will do' }).click();
  await openNote(page, DARKS);
  await note(page, DARKS).getByText('You will do this').first().waitFor();
  await goTo(first.page, 'shelf');
  await note(page, DARKS).getByRole('button', { name: 'Take that back' }).waitFor();
});

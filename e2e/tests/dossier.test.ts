import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { rawZip } from '../../packages/files/test/dossier/rawZip.ts';
import { draft, packed } from '../../packages/files/test/dossier/samples.ts';
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
  await expect.poll(() => row.textContent()).toMatch(/version 2 · resting/);
  await expect
    .poll(() => row.locator('img').evaluate((it: HTMLImageElement) => it.naturalWidth))
    .toBeGreaterThan(100);
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
  await expect.poll(() => other.locator('.row').count()).toBe(2);
});

test('what is no sound dossier gets a sentence, and nothing of it is kept', async () => {
  const text = (value: unknown): Uint8Array => new TextEncoder().encode(JSON.stringify(value));
  const { page } = await app.open();
  await page.locator('.empty').waitFor();
  const whole = await packed();
  const kinds: [string, Uint8Array, RegExp][] = [
    ['letters', text('letters'), /“letters.halflight” is not a dossier of Halflight/],
    ['cut', whole.subarray(0, whole.length - 300), /“cut.halflight” is damaged or cut off/],
    [
      'outside',
      rawZip([
        { name: 'manifest.json', data: text({}) },
        { name: '../../escaped.txt', data: text('x') },
      ]),
      /“outside.halflight” is not safe to open.*leads outside/,
    ],
    [
      'bomb',
      rawZip([{ name: 'manifest.json', data: new Uint8Array(80_000_000), deflate: true }]),
      /“bomb.halflight” is not safe to open.*would swell to 76 MB/,
    ],
  ];
  for (const [name, bytes, sentence] of kinds) {
    const input = page.locator('input[type=file]').first();
    await input.setInputFiles({ name: `${name}.halflight`, mimeType: '', buffer: Buffer.from(bytes) });
    await page.getByRole('alert').getByText(sentence).waitFor();
    await page.getByRole('button', { name: 'I have read it' }).click();
  }
  // A whole shelf with a hostile part: the part is named, the sound one comes in.
  const parts = [whole, kinds[2][1]].map((data, k) => ({ name: `${k}.halflight`, data }));
  const buffer = Buffer.from(rawZip(parts));
  await page.locator('input[type=file]').first().setInputFiles({ name: 'shelf.zip', mimeType: '', buffer });
  await page.getByRole('alert').getByText('is not safe to open').waitFor();
  await expect.poll(() => page.locator('.row-title').allTextContents()).toEqual(['Ferry landing']);
  const kept = await page.evaluate(async () => {
    const names: string[] = [];
    const walk = async (folder: FileSystemDirectoryHandle): Promise<void> => {
      for await (const [name, handle] of (
        folder as unknown as { entries(): AsyncIterable<[string, FileSystemHandle]> }
      ).entries()) {
        if (handle.kind === 'directory') await walk(handle as FileSystemDirectoryHandle);
        else names.push(name);
      }
    };
    await walk(await navigator.storage.getDirectory());
    return names;
  });
  const { work } = draft;
  const things = [work.versions[0].hash, work.versions[0].readings];
  expect(kept.filter((name) => !['a', 'b', 'journal', 'probe'].includes(name)).sort()).toEqual(things.sort());
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

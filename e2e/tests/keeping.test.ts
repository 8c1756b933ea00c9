import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { house, launchOptions, secondTab } from '../house/app.ts';
import { calm, folder, motley } from '../house/pictures.ts';
import { goTo, note, notesOf, openNote, openPicture } from '../house/steps.ts';

const files = folder();
const ferry = await files.picture('ferry.png', motley);
const barn = await files.picture('barn.png', calm);
// The barn, further on: large enough to fill a small store.
const barnLater = await files.picture('barn-2.png', {
  ...calm,
  data: calm.data.map((value, k) => (k % 7 < 3 ? value + 6 : value)),
});
const app = house();
const DARKS = /Darks are closed/;

test('the shelf holds every work with picture, title, state and top note; it is searched and sorted', async () => {
  const { page } = await app.open();
  await openPicture(page, ferry);
  await openPicture(page, barn);
  await page.getByRole('heading', { name: 'Barn · version 1' }).waitFor();
  await goTo(page, 'shelf');
  const row = page.locator('.row', { hasText: 'Ferry' });
  await expect.poll(() => row.locator('img').evaluate((it: HTMLImageElement) => it.naturalWidth)).toBe(320);
  await expect.poll(() => row.textContent()).toMatch(/version 1 · painting · today .*(hues|Darks)/);
  await page.getByLabel('Find').fill('barn');
  await expect.poll(() => page.locator('.row-title').allTextContents()).toEqual(['Barn']);
  await page.getByLabel('Find').fill('');
  await page.getByLabel('In the order of').selectOption('title');
  await expect.poll(() => page.locator('.row-title').allTextContents()).toEqual(['Barn', 'Ferry']);
  await page.getByLabel('Find').fill('no such thing');
  await page.getByText('No work on the shelf has “no such thing”').waitFor();
  await page.getByLabel('Find').fill('');

  // A look is written down and the work rests; the shelf tells both, and takes it up at the first thing to do.
  await row.locator('.row-open').click();
  await notesOf(page);
  await page.keyboard.press('l');
  await page.getByRole('button', { name: 'Begin the look' }).click();
  await page.locator('.quiet-look').waitFor();
  await page.keyboard.press('Escape');
  for (const name of ['I can’t say', 'I can’t say', 'nothing did', 'let it rest'])
    await page.getByRole('button', { name }).click();
  await page.getByText('One look so far.').waitFor();
  await goTo(page, 'shelf');
  await row.getByText(/resting · today .*last look today/).waitFor();
  await page.getByText('one rests. It is read anew').waitFor();
  await row.getByRole('button', { name: 'take up again: Ferry' }).waitFor();
  await page.getByRole('button', { name: 'Take up a resting picture' }).click();
  await notesOf(page);
  await page.locator('.notes-part .note').first().and(page.locator('[data-open]')).waitFor();
  await expect.poll(() => page.getByLabel('State of this work').inputValue()).toBe('painting');
});

test('a work taken off the shelf is put back, or gone at the next start', async () => {
  const { page } = await app.open();
  await openPicture(page, ferry);
  await goTo(page, 'shelf');
  const off = page.getByRole('button', { name: 'take off the shelf: Ferry' });
  await off.click();
  await expect.poll(() => page.locator('.row').count()).toBe(0);
  await page.getByRole('button', { name: 'Put it back' }).click();
  await page.locator('.row').waitFor();
  await off.click();
  await page.getByRole('button', { name: 'Put it back' }).waitFor();
  await page.reload();
  await page.locator('.empty').waitFor();
  const kept = await page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const names: string[] = [];
    for (const folder of ['works', 'pictures']) {
      const handle = await root.getDirectoryHandle(folder, { create: true });
      for await (const name of (handle as unknown as { keys(): AsyncIterable<string> }).keys())
        names.push(name);
    }
    return names;
  });
  expect(kept).toEqual([]);
});

test('a second tab with the same work looks on and does not write', async () => {
  const first = await app.open();
  await openPicture(first.page, ferry);
  const page = await secondTab(first, first.page.url());
  await notesOf(page);
  await page.getByText('This work is open in another tab').waitFor();
  await openNote(page, DARKS);
  await expect.poll(() => page.locator('.answers').count()).toBe(0);
  await first.page.close();
  await page.reload();
  await notesOf(page);
  await openNote(page, DARKS);
  await page.locator('.answers').waitFor();
});

test('a full store is said in a sentence, loses nothing, and takes the room of works off the shelf', async () => {
  const { page, context } = await app.open();
  await page.locator('.empty').waitFor();
  const session = await context.newCDPSession(page);
  const { origin } = new URL(app.address);
  const allow = (quotaSize?: number) =>
    session.send('Storage.overrideQuotaForOrigin', { origin, ...(quotaSize && { quotaSize }) });
  const used = async (): Promise<number> =>
    (await session.send('Storage.getUsageAndQuota', { origin })).usage;
  await openPicture(page, barn);

  // The next version does not fit: it hangs unkept until there is room, and the work stands as it was.
  await allow((await used()) + 1000);
  await page.locator('input[type=file]').first().setInputFiles(barnLater);
  await page.getByRole('heading', { name: 'Barn · a picture that is not kept, after version 1' }).waitFor();
  await page.getByRole('alert').getByText('The browser’s store is full').waitFor();
  await page.getByRole('button', { name: 'I have read it' }).click();
  // Before it is full, the margin of the open work says so as well as the shelf.
  await allow((await used()) + 5_000_000);
  await page.getByRole('button', { name: 'keep it as version 2' }).click();
  await page.getByRole('heading', { name: 'Barn · version 2' }).waitFor();
  await page.getByRole('alert').getByText('The browser’s store is filling up.').waitFor();
  await goTo(page, 'shelf');
  await page.getByText(/The browser’s store is filling up: it holds \d/).waitFor();
  await page.locator('.row-open').click();
  await notesOf(page);

  // An act that could not be written is written with the next one that can.
  await allow(1000);
  await page.getByLabel('State of this work').selectOption('editing');
  await page.getByRole('alert').getByText('The browser’s store is full').waitFor();
  await page.getByRole('button', { name: 'I have read it' }).click();
  await allow();
  await page.locator('h1 button').click();
  await page.getByLabel('Title of this work').fill('Old barn');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: /Old barn/ }).waitFor();
  await goTo(page, 'shelf');
  await page
    .locator('.row', { hasText: 'Old barn' })
    .getByText(/version 2 · editing/)
    .waitFor();

  // Works in a full store open. A picture that does not fit is read all the same, and kept once another work has gone.
  await allow(1000);
  await page.reload();
  await page.locator('.row-open', { hasText: 'Old barn' }).click();
  await notesOf(page);
  await page.locator('input[type=file]').first().setInputFiles(ferry);
  await notesOf(page);
  await page.getByRole('alert').getByText('The browser’s store is full').waitFor();
  await note(page, DARKS).waitFor();
  await goTo(page, 'shelf');
  await page.getByRole('button', { name: 'take off the shelf: Old barn' }).click();
  await expect.poll(() => page.locator('.row').count()).toBe(0);
  await allow((await used()) + 100_000);
  await openPicture(page, ferry);
  await goTo(page, 'shelf');
  await page.reload();
  await expect.poll(() => page.locator('.row-title').allTextContents()).toEqual(['Ferry']);
  await page.locator('.row-open').click();
  await notesOf(page);
});

test('a work whose picture the store lost asks for the file, and goes on with it', async () => {
  const { page } = await app.open();
  await openPicture(page, ferry);
  await openNote(page, DARKS);
  await page.getByRole('button', { name: 'will do' }).click();
  await note(page, DARKS).getByText('You will do this').first().waitFor();
  await page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    await root.removeEntry('pictures', { recursive: true });
  });
  await page.reload();
  await page.getByRole('alert').getByText('is no longer in this browser’s store').waitFor();
  await openPicture(page, ferry);
  await note(page, DARKS).getByText('You will do this').first().waitFor();
  await goTo(page, 'shelf');
  await expect.poll(() => page.locator('.row').count()).toBe(1);
});

test('the index is made again from the works when it is lost', async () => {
  const { page } = await app.open();
  await openPicture(page, ferry);
  await page.goto('about:blank');
  await page.goto(app.address);
  await page.locator('.row').waitFor();
  await page.evaluate(async () => {
    const open = indexedDB.open('halflight');
    await new Promise((done) => {
      open.onsuccess = done;
    });
    const change = open.result.transaction('works', 'readwrite');
    change.objectStore('works').clear();
    await new Promise((done) => {
      change.oncomplete = done;
    });
    open.result.close();
  });
  await page.reload();
  await page.locator('.row', { hasText: 'Ferry' }).waitFor();
});

test('a killed browser loses nothing that was written down', async () => {
  const profile = mkdtempSync(join(tmpdir(), 'halflight-profile-'));
  try {
    for (let round = 0; round < 4; round++) {
      const context = await chromium.launchPersistentContext(profile, launchOptions());
      const page = context.pages()[0];
      await page.goto(app.address);
      if (round === 0) {
        await openPicture(page, ferry);
      } else {
        await page.locator('.row-open').click();
        await notesOf(page);
        await page
          .getByText(`because reason ${round - 1}`)
          .first()
          .waitFor({ state: 'attached' });
        await page.locator('summary', { hasText: 'answered' }).click();
        await openNote(page, DARKS);
        await page.getByRole('button', { name: 'Take that back' }).click();
        await page.locator('.notes-part .note', { hasText: DARKS }).waitFor();
        if ((await page.locator('.note[data-open]').count()) === 0) await openNote(page, DARKS);
      }
      if (round === 0) await openNote(page, DARKS);
      await page.getByRole('button', { name: 'meant so' }).click();
      await page.getByLabel('Meant so, because').fill(`reason ${round}`);
      await page.keyboard.press('Enter');
      await page.locator('summary', { hasText: 'answered' }).waitFor();
      // The page shows an act before its line is written; what is not written yet may be lost.
      await expect.poll(() => journal(page)).toContain(`reason ${round}`);
      // No goodbye: the whole browser is killed at a moment of its own.
      await page.waitForTimeout(40 * round);
      await killed(context);
    }
  } finally {
    // Helpers of a killed browser live on for a while and write to the profile.
    spawnSync('pkill', ['-9', '-f', profile]);
    rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }
}, 180_000);

/** All journals of the store as they stand on the disk. */
function journal(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const works = await (await navigator.storage.getDirectory()).getDirectoryHandle('works');
    const folders = works as unknown as { values(): AsyncIterable<FileSystemDirectoryHandle> };
    let text = '';
    for await (const folder of folders.values())
      text += await (await (await folder.getFileHandle('journal')).getFile()).text();
    return text;
  });
}

/** Ends a browser by a crash of its main process. */
async function killed(context: import('playwright-core').BrowserContext): Promise<void> {
  const page = context.pages()[0];
  const gone = new Promise<void>((done) => context.once('close', () => done()));
  const session = await context.newCDPSession(page);
  void session.send('Browser.crash').catch(() => undefined);
  await gone;
}
